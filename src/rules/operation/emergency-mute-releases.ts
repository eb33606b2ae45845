import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const emergencyMuteReleases = screenRule({
  code: "operation/emergency-mute-releases",
  kind: "protection",
  severity: "advice",
  title: "After an alarm the sound comes back by hand.",
  why: "A contact that chatters would let the film break into the announcement.",
  source: `${COMMON_PRACTICE}; local codes decide`,
  remedy: "Set the release to by-hand, unless the local code asks otherwise.",
  example: {
    breaks: [set("/operation/emergencyMute/release", "automatic")],
    mends: [set("/operation/emergencyMute/release", "by-hand")],
  },
  *check({ configuration: { operation } }) {
    const { emergencyMute } = operation;
    if (emergencyMute?.enabled !== true || emergencyMute.release === "by-hand") return;
    yield {
      path: ["operation", "emergencyMute", "release"],
      words: "The sound comes back by itself when the contact goes back.",
    };
  },
});
