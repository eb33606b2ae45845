import { remove, set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const channelLabel = screenRule({
  code: "unit/channel-label",
  kind: "routing",
  severity: "error",
  title: "Every program channel is one that the unit has, once.",
  why: "A unit has a fixed set of program channels: another one has nowhere to go.",
  source: "the unit's profile; labels of SMPTE ST 428-12:2013",
  remedy: "Feed its loudspeakers from a channel that the unit has.",
  needsProfile: true,
  example: {
    breaks: [set("/channels/VIN-2", { id: "VIN-2", label: "VIN", levelDb: 0, delayMs: 0, mute: false })],
    mends: [remove("/channels/VIN-2")],
  },
  *check({ configuration, profile }) {
    const seen = new Set<string>();
    for (const [i, { label }] of configuration.channels.entries()) {
      const path = ["channels", i, "label"];
      if (!profile!.channels.labels.includes(label)) {
        yield { path, words: `The unit has no program channel ${label}.`, numbers: { label } };
      } else if (seen.has(label)) {
        yield { path, words: `There is a second program channel ${label}.`, numbers: { label } };
      }
      seen.add(label);
    }
  },
});
