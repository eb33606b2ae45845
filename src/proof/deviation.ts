import type { AcousticResponses } from "../acoustics/index.ts";
import type { PathDeviation } from "../model/index.ts";
import type { ExactResponses } from "./exact-responses.ts";
import { exactExtremes } from "./extremes.ts";
import { type FilterDifference, filterDifferences, flooredDb } from "./filter-difference.ts";
import type { ComparisonGrid } from "./frequencies.ts";
import type { PathSide } from "./path-pairs.ts";

/** The filters and the level of a path compared; delay and polarity come on top. */
export type SoundDeviation = Omit<PathDeviation, "delayMs" | "polarity" | "seatsDb">;

/** How the two sides of a path pair deviate. */
export type CompareSound = (before: PathSide, after: PathSide) => SoundDeviation;

/** How deviations are weighted, for whoever reads a proof. */
export const WEIGHTING =
  "1/24 octave as the filters were before the bilinear transform, closer at narrow filters and around the largest deviations; equal weight per octave from 40 Hz to 16 kHz, times the share with which the path plays there: the larger magnitude, before or after, of its high-pass and low-pass against their own maximum. A deviation where a way plays 20 dB below its pass band counts a tenth, as it can change the sum with its neighbour that much. Below 40 Hz a tolerance of its own holds; above 16 kHz deviations are reported, not judged. Phase is compared up to 8 kHz: 20 degrees there are 7 microseconds, a third of a sample at 48 kHz. Levels below -60 dB count as -60 dB.";

/** Highest frequency in Hz at which phase is compared; see {@link WEIGHTING}. */
const PHASE_TO_HZ = 8000;

/** A configuration's outputs, and its filters at any frequencies. */
export interface ComparedSide {
  readonly outputs: AcousticResponses["outputs"];
  readonly exact: ExactResponses;
}

/**
 * Compares paths of two configurations. Equalizers and outputs are compared once a pair; paths with the same equalizers,
 * outputs and change of level share one result. Extremes are looked for between the frequencies of the grid too.
 */
export function soundComparison(
  before: ComparedSide,
  after: ComparedSide,
  grid: ComparisonGrid,
): CompareSound {
  const difference = filterDifferences();
  const shares = { before: playingShares(before), after: playingShares(after) };
  const weights = playingWeights(shares);
  const known = new Map<FilterDifference, Map<string, SoundDeviation>>();
  return (old, now) => {
    const equalizer = difference(old.path.equalization, now.path.equalization);
    const results = known.get(equalizer) ?? new Map<string, SoundDeviation>();
    known.set(equalizer, results);
    // Rounded, so that sums of the same decimals in another order meet.
    const levelDb = Math.round((now.levelDb - old.levelDb) * 1e9) / 1e9;
    const key = `${old.path.outputId} ${now.path.outputId} ${levelDb}`;
    const result = results.get(key) ?? compare();
    results.set(key, result);
    return result;

    function compare(): SoundDeviation {
      const output = difference(old.path.output, now.path.output);
      const filters = [
        { difference: equalizer, before: old.path.equalization, after: now.path.equalization },
        { difference: output, before: old.path.output, after: now.path.output },
      ].filter((pair) => !pair.difference.isNone);
      return soundDeviation({
        grid,
        equalizer,
        output,
        weights: weights(old.path.outputId, now.path.outputId),
        levelDb,
        weightedDbAt: (frequenciesHz) => {
          const values = new Float64Array(frequenciesHz.length).fill(levelDb);
          for (const pair of filters) {
            const was = before.exact.get(pair.before)?.(frequenciesHz).magnitudeDb;
            const is = after.exact.get(pair.after)?.(frequenciesHz).magnitudeDb;
            for (let k = 0; k < values.length; k++) {
              values[k]! += flooredDb(is?.[k] ?? 0) - flooredDb(was?.[k] ?? 0);
            }
          }
          const [shareBefore, shareAfter] = [
            shares.before.at(old.path.outputId, frequenciesHz),
            shares.after.at(now.path.outputId, frequenciesHz),
          ];
          return values.map((db, k) => db * Math.max(shareBefore[k]!, shareAfter[k]!));
        },
      });
    }
  };
}

interface Comparison {
  readonly grid: ComparisonGrid;
  readonly equalizer: FilterDifference;
  readonly output: FilterDifference;
  readonly weights: Float64Array;
  readonly levelDb: number;
  /** The weighted change of level in dB at any frequencies. */
  readonly weightedDbAt: (frequenciesHz: Float64Array) => Float64Array;
}

function soundDeviation(comparison: Comparison): SoundDeviation {
  const { grid, equalizer, output, weights, levelDb } = comparison;
  const { frequenciesHz, octaves, bandStart, bandEnd } = grid;
  const weightedDb = new Float64Array(frequenciesHz.length);
  const peak = { phaseRad: 0, phaseAt: bandStart };
  let width = 0;
  let sum = 0;
  let squares = 0;
  for (let k = 0; k < frequenciesHz.length; k++) {
    const weight = weights[k]!;
    const db = levelDb + equalizer.db[k]! + output.db[k]!;
    weightedDb[k] = weight * db;
    if (k < bandStart || k >= bandEnd) continue;
    const share = octaves[k]! * weight * weight;
    width += share;
    sum += share * db;
    squares += share * db * db;
    const phase = weight * wrapped(equalizer.phaseRad[k]! + output.phaseRad[k]!);
    if (frequenciesHz[k]! <= PHASE_TO_HZ && Math.abs(phase) > Math.abs(peak.phaseRad)) {
      peak.phaseRad = phase;
      peak.phaseAt = k;
    }
  }
  // The edges reach up to the ends of the band, so that nothing lies between.
  const parts = [
    [0, bandStart + 1],
    [bandStart, bandEnd],
    [bandEnd - 1, frequenciesHz.length],
  ] as const;
  const [low, band, high] = exactExtremes(
    { frequenciesHz, values: weightedDb, parts },
    comparison.weightedDbAt,
  );
  return {
    responseDb: band!.value,
    responseAtHz: band!.atHz,
    responseRmsDb: width > 0 ? Math.sqrt(squares / width) : 0,
    levelDb: width > 0 ? sum / width : levelDb,
    lowEdgeDb: low!.value,
    highEdgeDb: high!.value,
    phaseDeg: (peak.phaseRad * 180) / Math.PI,
    phaseAtHz: frequenciesHz[peak.phaseAt]!,
  };
}

/** The sum of two angles in [−π, π], brought back there. */
function wrapped(angleRad: number): number {
  if (angleRad > Math.PI) return angleRad - 2 * Math.PI;
  return angleRad < -Math.PI ? angleRad + 2 * Math.PI : angleRad;
}

/** With what share of its loudest each output plays, by its high-pass and low-pass. */
interface PlayingShares {
  readonly onGrid: (outputId: string) => Float64Array;
  readonly at: (outputId: string, frequenciesHz: Float64Array) => Float64Array;
}

function playingShares({ outputs, exact }: ComparedSide): PlayingShares {
  const loudestDb = (outputId: string) =>
    outputs
      .get(outputId)!
      .crossover.magnitudeDb.reduce((most, db) => Math.max(most, db), Number.NEGATIVE_INFINITY);
  const share = (levelsDb: Float64Array, outputId: string) => {
    const referenceDb = loudestDb(outputId);
    return levelsDb.map((db) => 10 ** ((db - referenceDb) / 20));
  };
  return {
    onGrid: (outputId) => share(outputs.get(outputId)!.crossover.magnitudeDb, outputId),
    at: (outputId, frequenciesHz) =>
      share(exact.get(outputs.get(outputId)!.crossover)!(frequenciesHz).magnitudeDb, outputId),
  };
}

/**
 * With what share of its loudest an output plays at each frequency: the larger of before and after, so that a filter that
 * was lost shows where it let nothing through.
 */
function playingWeights({
  before,
  after,
}: {
  readonly before: PlayingShares;
  readonly after: PlayingShares;
}): (oldOutputId: string, newOutputId: string) => Float64Array {
  const known = new Map<string, Float64Array>();
  return (oldOutputId, newOutputId) => {
    const key = `${oldOutputId} ${newOutputId}`;
    const weights = known.get(key) ?? louder(before.onGrid(oldOutputId), after.onGrid(newOutputId));
    known.set(key, weights);
    return weights;
  };
}

function louder(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, k) => Math.max(value, b[k]!));
}
