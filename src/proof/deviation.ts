import type { AcousticResponses } from "../acoustics/index.ts";
import type { PathDeviation } from "../model/index.ts";
import { type FilterDifference, filterDifferences } from "./filter-difference.ts";
import type { ComparisonGrid } from "./frequencies.ts";
import type { PathSide } from "./path-pairs.ts";

/** The filters and the level of a path compared; delay and polarity come on top. */
export type SoundDeviation = Omit<PathDeviation, "delayMs" | "polarity" | "seatsDb">;

/** How the two sides of a path pair deviate. */
export type CompareSound = (before: PathSide, after: PathSide) => SoundDeviation;

/** How deviations are weighted, for whoever reads a proof. */
export const WEIGHTING =
  "1/24 octave, more at narrow filters; equal weight per octave from 40 Hz to 16 kHz, times the share with which the path plays there: the larger magnitude, before or after, of its high-pass and low-pass against their own maximum. A deviation where a way plays 20 dB below its pass band counts a tenth, as it can change the sum with its neighbour that much. Below 40 Hz a tolerance of its own holds; above 16 kHz deviations are reported, not judged. Phase is compared up to 8 kHz: 20 degrees there are 7 microseconds, a third of a sample at 48 kHz. Levels below -60 dB count as -60 dB.";

/** Highest frequency in Hz at which phase is compared; see {@link WEIGHTING}. */
const PHASE_TO_HZ = 8000;

/**
 * Compares paths of two configurations. Equalizers and outputs are compared once a pair; paths with the same equalizers,
 * outputs and change of level share one result.
 */
export function soundComparison(
  before: Pick<AcousticResponses, "outputs">,
  after: Pick<AcousticResponses, "outputs">,
  grid: ComparisonGrid,
): CompareSound {
  const difference = filterDifferences();
  const weights = playingWeights(before, after);
  const known = new Map<FilterDifference, Map<string, SoundDeviation>>();
  return (old, now) => {
    const equalizer = difference(old.path.equalization, now.path.equalization);
    const results = known.get(equalizer) ?? new Map<string, SoundDeviation>();
    known.set(equalizer, results);
    // Rounded, so that sums of the same decimals in another order meet.
    const levelDb = Math.round((now.levelDb - old.levelDb) * 1e9) / 1e9;
    const key = `${old.path.outputId} ${now.path.outputId} ${levelDb}`;
    const result =
      results.get(key) ??
      soundDeviation({
        grid,
        equalizer,
        output: difference(old.path.output, now.path.output),
        weights: weights(old.path.outputId, now.path.outputId),
        levelDb,
      });
    results.set(key, result);
    return result;
  };
}

interface Comparison {
  readonly grid: ComparisonGrid;
  readonly equalizer: FilterDifference;
  readonly output: FilterDifference;
  readonly weights: Float64Array;
  readonly levelDb: number;
}

function soundDeviation({ grid, equalizer, output, weights, levelDb }: Comparison): SoundDeviation {
  const { frequenciesHz, octaves, bandStart, bandEnd } = grid;
  const peak = { responseDb: 0, responseAt: bandStart, phaseRad: 0, phaseAt: bandStart };
  let lowEdgeDb = 0;
  let highEdgeDb = 0;
  let width = 0;
  let sum = 0;
  let squares = 0;
  for (let k = 0; k < frequenciesHz.length; k++) {
    const weight = weights[k]!;
    const db = levelDb + equalizer.db[k]! + output.db[k]!;
    const weighted = weight * db;
    if (k < bandStart) lowEdgeDb = larger(lowEdgeDb, weighted);
    else if (k >= bandEnd) highEdgeDb = larger(highEdgeDb, weighted);
    else {
      const share = octaves[k]! * weight * weight;
      width += share;
      sum += share * db;
      squares += share * db * db;
      if (Math.abs(weighted) > Math.abs(peak.responseDb)) {
        peak.responseDb = weighted;
        peak.responseAt = k;
      }
      const phase = weight * wrapped(equalizer.phaseRad[k]! + output.phaseRad[k]!);
      if (frequenciesHz[k]! <= PHASE_TO_HZ && Math.abs(phase) > Math.abs(peak.phaseRad)) {
        peak.phaseRad = phase;
        peak.phaseAt = k;
      }
    }
  }
  return {
    responseDb: peak.responseDb,
    responseAtHz: frequenciesHz[peak.responseAt]!,
    responseRmsDb: width > 0 ? Math.sqrt(squares / width) : 0,
    levelDb: width > 0 ? sum / width : levelDb,
    lowEdgeDb,
    highEdgeDb,
    phaseDeg: (peak.phaseRad * 180) / Math.PI,
    phaseAtHz: frequenciesHz[peak.phaseAt]!,
  };
}

function larger(a: number, b: number): number {
  return Math.abs(b) > Math.abs(a) ? b : a;
}

/** The sum of two angles in [−π, π], brought back there. */
function wrapped(angleRad: number): number {
  if (angleRad > Math.PI) return angleRad - 2 * Math.PI;
  return angleRad < -Math.PI ? angleRad + 2 * Math.PI : angleRad;
}

/**
 * With what share of its loudest an output plays at each frequency, by its high-pass and low-pass: the larger of before
 * and after, so that a filter that was lost shows where it let nothing through.
 */
function playingWeights(
  before: Pick<AcousticResponses, "outputs">,
  after: Pick<AcousticResponses, "outputs">,
): (oldOutputId: string, newOutputId: string) => Float64Array {
  const known = new Map<string, Float64Array>();
  return (oldOutputId, newOutputId) => {
    const key = `${oldOutputId} ${newOutputId}`;
    const weights =
      known.get(key) ?? louder(playingShare(before, oldOutputId), playingShare(after, newOutputId));
    known.set(key, weights);
    return weights;
  };
}

function playingShare({ outputs }: Pick<AcousticResponses, "outputs">, outputId: string): Float64Array {
  const levelsDb = outputs.get(outputId)!.crossover.magnitudeDb;
  const loudestDb = levelsDb.reduce((most, db) => Math.max(most, db), Number.NEGATIVE_INFINITY);
  return levelsDb.map((db) => 10 ** ((db - loudestDb) / 20));
}

function louder(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, k) => Math.max(value, b[k]!));
}
