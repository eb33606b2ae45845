import { CHANNELS, type ChannelLabel, type Placement } from "../../model/index.ts";
import { set } from "../edits.ts";
import { isHeadset, PLACEMENTS } from "../program.ts";
import { screenRule } from "../rule.ts";

export const wrongLoudspeaker = screenRule({
  code: "format/wrong-loudspeaker",
  kind: "routing",
  severity: "error",
  title: "A loudspeaker plays a channel of its own place.",
  why: "A left channel at the right of the screen, or a screen channel from the rear wall, is a cable or a number exchanged.",
  source: "SMPTE ST 428-12:2013 (channel names say where they play)",
  remedy: "Correct the mix of the output, or the loudspeaker that it feeds.",
  example: {
    breaks: [
      set("/outputs/left-rear/feeds/loudspeakerId", "surround-right-rear"),
      set("/outputs/right-rear/feeds/loudspeakerId", "surround-left-rear"),
    ],
    mends: [
      set("/outputs/left-rear/feeds/loudspeakerId", "surround-left-rear"),
      set("/outputs/right-rear/feeds/loudspeakerId", "surround-right-rear"),
    ],
  },
  *check(context) {
    const placements = new Set(context.configuration.loudspeakers.map((item) => item.placement));
    for (const { item: output, index, loudspeaker } of context.fedWays) {
      const labels = context.labelsOf(output).filter((label) => !isHeadset(label));
      if (labels.length === 0) continue;
      if (labels.some((label) => playsFrom(label, loudspeaker.placement, placements))) continue;
      yield {
        path: ["outputs", index, "mix"],
        words: `${loudspeaker.label} plays ${labels.map((label) => CHANNELS[label].name).join(" and ")}.`,
        numbers: { placement: loudspeaker.placement, channels: labels.join(" ") },
      };
    }
  },
});

function playsFrom(label: ChannelLabel, placement: Placement, placements: ReadonlySet<Placement>): boolean {
  if (PLACEMENTS[label].includes(placement)) return true;
  // A subwoofer may carry the low end of any channel; a room without subwoofers plays LFE from the screen.
  if (placement === "subwoofer") return true;
  if (label === "LFE") return !placements.has("subwoofer") && placement.startsWith("screen");
  // A channel without a loudspeaker of its own plays from its neighbours on the same wall.
  const hasOwn = PLACEMENTS[label].some((own) => placements.has(own));
  if (hasOwn) return false;
  const wall = CHANNELS[label].role === "screen" ? "screen" : "surround";
  return placement.startsWith(wall);
}
