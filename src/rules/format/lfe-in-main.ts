import { remove, set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const lfeInMain = screenRule({
  code: "format/lfe-in-main",
  kind: "protection",
  severity: "warning",
  title: "LFE plays from subwoofers, where the room has them.",
  why: "LFE has 10 dB more level in its band: a surround or screen loudspeaker that gets it runs out of travel.",
  source:
    "SMPTE RP 200:2012 as quoted in public texts (LFE +10 dB in band); which loudspeakers: common practice, no source",
  remedy: "Take LFE out of the mix of this output.",
  example: {
    breaks: [set("/outputs/left-rear/mix/LFE", { channelId: "LFE", gainDb: 0 })],
    mends: [remove("/outputs/left-rear/mix/LFE")],
  },
  *check(context) {
    const hasSub = context.fedWays.some(({ way }) => way.band === "sub");
    for (const { item: output, index, loudspeaker, way } of hasSub ? context.fedWays : []) {
      if (way.band === "sub" || loudspeaker.placement === "subwoofer") continue;
      const at = output.mix.findIndex(
        ({ channelId }) => context.channels.get(channelId)?.item.label === "LFE",
      );
      if (at < 0) continue;
      yield {
        path: ["outputs", index, "mix", at],
        words: `${loudspeaker.label} gets LFE, although the room has subwoofers.`,
        numbers: { placement: loudspeaker.placement },
      };
    }
  },
});
