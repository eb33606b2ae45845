import { addScaledInto, type ComplexArray, complexArray } from "../base/numeric/index.ts";
import type { AcousticResponses } from "./acoustic-responses.ts";
import { levelOf } from "./filter-response.ts";
import { pathResponse } from "./path-responses.ts";
import type { Path } from "./paths.ts";

/** A level and where it lies. */
export interface LevelAt {
  readonly levelDb: number;
  readonly frequencyHz: number;
}

/**
 * The largest levels that an output of a preset can reach, in dB relative to the level of one source channel: 0 dB means
 * that a full-scale sine at the input is a full-scale sine at the output.
 */
export interface OutputHeadroom {
  readonly presetId: string;
  readonly outputId: string;
  /** The one source channel with the largest magnitude, all its program channels summed. */
  readonly largest: LevelAt & { readonly sourceChannelId: string };
  /** All source channels that meet in the output, each at full scale, all in phase: the worst case. */
  readonly together: LevelAt;
  /** The source channels that meet in the output. */
  readonly sourceChannelIds: readonly string[];
}

/**
 * Headroom of every output in every preset: the largest magnitude over the axis (20 Hz to 20 kHz by default), for the
 * loudest source channel and for all of them together. For steady sines; mutes and limiters are ignored. Outputs that no
 * path of a preset reaches are not listed.
 */
export function outputHeadrooms(responses: AcousticResponses): readonly OutputHeadroom[] {
  const groups = new Map<string, Path[]>();
  for (const path of responses.paths) {
    const key = JSON.stringify([path.presetId, path.outputId]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [path]);
    else group.push(path);
  }
  return [...groups.values()].map((paths) => headroomOf(paths, responses.axis.frequenciesHz));
}

function headroomOf(paths: readonly Path[], frequenciesHz: Float64Array): OutputHeadroom {
  const sourceChannelIds = [...new Set(paths.map((path) => path.sourceChannelId))];
  const amplitudes = sourceChannelIds.map((id) =>
    amplitudesOf(
      paths.filter((path) => path.sourceChannelId === id),
      frequenciesHz,
    ),
  );
  const together = new Float64Array(frequenciesHz.length);
  for (const amplitude of amplitudes) for (let k = 0; k < together.length; k++) together[k]! += amplitude[k]!;
  const single = sourceChannelIds.map((sourceChannelId, k) => ({
    sourceChannelId,
    ...peak(amplitudes[k]!, frequenciesHz),
  }));
  return {
    presetId: paths[0]!.presetId,
    outputId: paths[0]!.outputId,
    largest: single.reduce((best, level) => (level.levelDb > best.levelDb ? level : best)),
    together: peak(together, frequenciesHz),
    sourceChannelIds,
  };
}

/**
 * |Σ H| over the paths of one source channel to one output, through different program channels. Only the differences of
 * their delays matter.
 */
function amplitudesOf(paths: readonly Path[], frequenciesHz: Float64Array): Float64Array {
  const sum: ComplexArray = complexArray(frequenciesHz.length);
  for (const path of paths) {
    const delayMs = path.delayMs - paths[0]!.delayMs;
    addScaledInto(sum, pathResponse({ ...path, delayMs }, { frequenciesHz }), 1);
  }
  return sum.re.map((re, k) => Math.hypot(re, sum.im[k]!));
}

function peak(amplitudes: Float64Array, frequenciesHz: Float64Array): LevelAt {
  let best = 0;
  for (let k = 1; k < amplitudes.length; k++) if (amplitudes[k]! > amplitudes[best]!) best = k;
  return { levelDb: levelOf(amplitudes[best]!), frequencyHz: frequenciesHz[best]! };
}
