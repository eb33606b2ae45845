import { outputHeadrooms } from "../../acoustics/index.ts";
import { printDb, printHz } from "../../units/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const headroom = screenRule({
  code: "level/headroom",
  kind: "sound",
  severity: "warning",
  title: "A full-scale program does not drive an output far above full scale.",
  why: "Levels, gains and EQ add up; what does not fit is clipped, or pressed by the limiter in every loud scene.",
  source:
    "sum of all levels and responses of a path over 20 Hz to 20 kHz; the limit: common practice, no source",
  remedy: "Take gain out of the path: the output's gain first, then the boosts of the EQ.",
  limits: {
    maxDb: { value: 6, unit: "dB", words: "largest gain from the loudest source channel to an output" },
  },
  example: {
    breaks: [set("/outputs/sub-1-all/gainDb", 10), set("/outputs/sub-2-all/gainDb", 10)],
    mends: [set("/outputs/sub-1-all/gainDb", 4), set("/outputs/sub-2-all/gainDb", 4)],
  },
  *check(context, { maxDb }) {
    const worst = new Map<string, ReturnType<typeof outputHeadrooms>[number]>();
    for (const found of outputHeadrooms(context.responses())) {
      const known = worst.get(found.outputId);
      if (known === undefined || found.largest.levelDb > known.largest.levelDb)
        worst.set(found.outputId, found);
    }
    for (const { outputId, presetId, largest } of worst.values()) {
      const output = context.outputs.get(outputId);
      if (output === undefined || !(largest.levelDb > maxDb)) continue;
      const preset = context.presets.get(presetId)?.item.label ?? presetId;
      yield {
        path: ["outputs", output.index, "gainDb"],
        words: `In ${preset} a full-scale channel comes out at ${printDb(largest.levelDb)} above full scale, at ${printHz(largest.frequencyHz)}.`,
        numbers: { levelDb: largest.levelDb, frequencyHz: largest.frequencyHz, presetId },
      };
    }
  },
});
