import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const emergencyMuteNotFailSafe = screenRule({
  code: "operation/emergency-mute-not-fail-safe",
  kind: "protection",
  severity: "warning",
  title: "A broken wire to the fire alarm mutes the auditorium.",
  why: "A contact that must close to mute does nothing when its cable is cut or unplugged, and nobody notices.",
  source: `${COMMON_PRACTICE} (closed-loop alarm contacts); local codes decide`,
  remedy: "Wire the alarm as a closed loop that opens in an alarm, and set the mute to act when open.",
  example: {
    breaks: [set("/operation/emergencyMute/activeWhen", "closed")],
    mends: [set("/operation/emergencyMute/activeWhen", "open")],
  },
  *check({ configuration: { operation } }) {
    const { emergencyMute } = operation;
    if (emergencyMute?.enabled !== true || emergencyMute.activeWhen === "open") return;
    yield {
      path: ["operation", "emergencyMute", "activeWhen"],
      words: "The mute acts when the contact closes: with the wire broken it never acts.",
    };
  },
});
