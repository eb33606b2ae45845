import {
  type AcousticResponses,
  type OutputHeadroom,
  outputHeadrooms,
  type Path,
} from "../../acoustics/index.ts";
import { amplitudeFromDb, dbFromAmplitude } from "../../base/units/index.ts";
import { printDb, printHz } from "../../words/index.ts";
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
    for (const { outputId, presetId, largest } of worstOfEachOutput(context.responses(), maxDb)) {
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

/** The preset with the least headroom for each output, of those that could lie above a level. */
function worstOfEachOutput(responses: AcousticResponses, aboveDb: number): Iterable<OutputHeadroom> {
  const worst = new Map<string, OutputHeadroom>();
  for (const found of outputHeadrooms({ ...responses, paths: suspects(responses.paths, aboveDb) })) {
    const known = worst.get(found.outputId);
    if (known === undefined || found.largest.levelDb > known.largest.levelDb)
      worst.set(found.outputId, found);
  }
  return worst.values();
}

/**
 * The paths whose source channel could come out above a level, if the peaks of equalizer and output fell together: an
 * upper bound that costs one look at each shared response, where the exact sum costs one for each path.
 */
function suspects(paths: readonly Path[], aboveDb: number): readonly Path[] {
  const peaks = new Map<Path["output"], number>();
  const peakDb = (response: Path["output"]) => {
    const known = peaks.get(response);
    if (known !== undefined) return known;
    const peak = response.magnitudeDb.reduce((a, b) => Math.max(a, b));
    peaks.set(response, peak);
    return peak;
  };
  const sums = new Map<string, number>();
  const keyOf = (path: Path) => `${path.presetId}\n${path.outputId}\n${path.sourceChannelId}`;
  for (const path of paths) {
    const boundDb = path.levelDb + peakDb(path.equalization) + peakDb(path.output);
    sums.set(keyOf(path), (sums.get(keyOf(path)) ?? 0) + amplitudeFromDb(boundDb));
  }
  return paths.filter((path) => dbFromAmplitude(sums.get(keyOf(path))!) > aboveDb);
}
