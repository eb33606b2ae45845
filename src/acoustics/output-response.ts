import { multiplyInto } from "../base/numeric/index.ts";
import { coherentSumDb } from "../base/units/index.ts";
import type { Attempt } from "./attempt.ts";
import { cascadeResponse } from "./cascade.ts";
import type { AcousticOutput } from "./configuration.ts";
import { crossoverSections } from "./crossovers/crossover-families.ts";
import { type FilterResponse, filterResponse, inSeries } from "./filter-response.ts";
import { listedSections } from "./filters/filter-kinds.ts";
import { firResponse } from "./fir.ts";
import type { FrequencyAxis } from "./frequency-axis.ts";
import { checkNumber, type SettingPlace, unknownId } from "./limits.ts";

/** What one output does to sound. Gain, delay and polarity stand in its settings. */
export interface OutputResponse {
  /** High-pass and low-pass alone. */
  readonly crossover: FilterResponse;
  /** All filters: high-pass, low-pass, driver EQ, FIR. */
  readonly filters: FilterResponse;
  /** Gain in dB of every program channel in the output's mix. A share listed twice has both gains added, in phase. */
  readonly mixDb: ReadonlyMap<string, number>;
}

/** What an output is computed with. */
export interface OutputWork {
  readonly axis: FrequencyAxis;
  /** JSON Pointer of the output. */
  readonly place: SettingPlace;
  /** The program channels that exist. */
  readonly channelIds: ReadonlySet<string>;
  readonly attempt: Attempt;
}

/** The responses of an output and its mix. A share of the mix that cannot be used is left out by itself. */
export function outputResponse(output: AcousticOutput, work: OutputWork): OutputResponse {
  const { axis, place } = work;
  const { sampleRateHz } = axis;
  const { highPass, lowPass, filters, fir } = output;
  checkNumber("levelDb", output.gainDb, `${place}/gainDb`);
  checkNumber("delayMs", output.delayMs, `${place}/delayMs`);
  const halves = [
    ...(highPass ? crossoverSections(highPass, "high-pass", sampleRateHz, `${place}/highPass`) : []),
    ...(lowPass ? crossoverSections(lowPass, "low-pass", sampleRateHz, `${place}/lowPass`) : []),
  ];
  const crossover = filterResponse(cascadeResponse(halves, axis));
  const driver = cascadeResponse(listedSections(filters, sampleRateHz, `${place}/filters`), axis);
  if (fir !== undefined) multiplyInto(driver, firResponse(fir, axis, `${place}/fir`));
  return { crossover, filters: inSeries(crossover, driver), mixDb: mergedMix(output, work) };
}

function mergedMix(
  { mix }: AcousticOutput,
  { place, channelIds, attempt }: OutputWork,
): ReadonlyMap<string, number> {
  const merged = new Map<string, number>();
  mix.forEach(({ channelId, gainDb }, index) => {
    attempt(() => {
      checkNumber("levelDb", gainDb, `${place}/mix/${index}/gainDb`);
      if (!channelIds.has(channelId)) throw unknownId(channelId, `${place}/mix/${index}/channelId`);
      const known = merged.get(channelId);
      merged.set(channelId, known === undefined ? gainDb : coherentSumDb([known, gainDb]));
    });
  });
  return merged;
}
