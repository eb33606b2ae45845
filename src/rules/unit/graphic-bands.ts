import { GRAPHIC_BANDS } from "../../profile/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const graphicBands = screenRule({
  code: "unit/graphic-bands",
  kind: "sound",
  severity: "error",
  title: "A graphic equalizer has as many gains as its layout has bands.",
  why: "One gain too few, and every gain above it lands on the wrong band.",
  source: "IEC 61260-1 (mid-band frequencies); the schema of configurations",
  remedy: "Bring the list of gains to the number of bands of the layout.",
  example: {
    breaks: [set("/equalizations/eq-feature/channels/C/graphic/gainsDb", Array(26).fill(0))],
    mends: [set("/equalizations/eq-feature/channels/C/graphic/gainsDb", Array(27).fill(0))],
  },
  *check({ configuration }) {
    for (const [i, { channels }] of configuration.equalizations.entries()) {
      for (const [j, { graphic }] of channels.entries()) {
        if (graphic === undefined) continue;
        const bands = GRAPHIC_BANDS[graphic.layout];
        if (graphic.gainsDb.length === bands) continue;
        yield {
          path: ["equalizations", i, "channels", j, "graphic", "gainsDb"],
          words: `There are ${graphic.gainsDb.length} gains for ${bands} bands.`,
          numbers: { gains: graphic.gainsDb.length, bands },
        };
      }
    }
  },
});
