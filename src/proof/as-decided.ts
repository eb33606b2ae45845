import { acousticResponses, type FilterResponse, inSeries, type OutputResponse } from "../acoustics/index.ts";
import type { Configuration, Crossover, Output } from "../model/index.ts";
import type { ExactResponses, ResponseAt } from "./exact-responses.ts";
import type { Decided } from "./given-up.ts";
import type { ScreenNames } from "./screen-names.ts";

export interface AsDecidedOptions {
  readonly names: ScreenNames;
  readonly decisions: Pick<Decided, "setting">;
  readonly frequenciesHz: Float64Array;
  /** Sample rate of the new unit, which runs what was decided. */
  readonly sampleRateHz: number;
}

/** Outputs as decided, and their filters at any frequencies. */
export interface OutputsAsDecided {
  readonly outputs: ReadonlyMap<string, OutputResponse>;
  readonly exact: ExactResponses;
}

/**
 * The outputs of the old configuration whose high-pass, low-pass or FIR filter somebody decided on, by id, as they have to
 * sound now: with the decided filter in the place of the old one, all else as it was.
 */
export function outputsAsDecided(
  { unit, outputs }: Configuration,
  before: ReadonlyMap<string, OutputResponse>,
  { names, decisions, frequenciesHz, sampleRateHz }: AsDecidedOptions,
): OutputsAsDecided {
  const result = new Map<string, OutputResponse>();
  const exact = new Map<FilterResponse, ResponseAt>();
  for (const output of outputs) {
    const feedId = names.before.feeds.get(output.id)?.id;
    const change = feedId === undefined ? undefined : decidedFilters(output, feedId, decisions);
    if (change === undefined) continue;
    const at = (pointsHz: Float64Array) => {
      const kept = outputAlone(change.kept, unit.sampleRateHz, pointsHz);
      const { crossover } = outputAlone(change.decided, sampleRateHz, pointsHz);
      return { crossover: inSeries(kept.crossover, crossover), filters: inSeries(kept.filters, crossover) };
    };
    const response = { ...at(frequenciesHz), mixDb: before.get(output.id)!.mixDb };
    result.set(output.id, response);
    exact.set(response.filters, (pointsHz) => at(pointsHz).filters);
    exact.set(response.crossover, (pointsHz) => at(pointsHz).crossover);
  }
  return { outputs: result, exact };
}

function outputAlone(output: Output, sampleRateHz: number, frequenciesHz: Float64Array): OutputResponse {
  const nothing = { sources: [], channels: [], equalizations: [], presets: [], loudspeakers: [] };
  const alone = { ...nothing, unit: { sampleRateHz }, outputs: [output] };
  return acousticResponses(alone, { frequenciesHz }).outputs.get(output.id)!;
}

/** What stays of an output's filters, and what was decided in the place of the rest; undefined where nothing was. */
function decidedFilters(
  output: Output,
  feedId: string,
  { setting }: Pick<Decided, "setting">,
): { readonly kept: Output; readonly decided: Output } | undefined {
  const at = (name: "high-pass" | "low-pass" | "fir") => {
    const found = setting({ setting: name, feedId });
    return found?.decided === "muted" ? undefined : found;
  };
  const [highPass, lowPass, fir] = [at("high-pass"), at("low-pass"), at("fir")];
  if (highPass === undefined && lowPass === undefined && fir === undefined) return undefined;
  const { highPass: oldHighPass, lowPass: oldLowPass, fir: oldFir, ...rest } = output;
  const bare = { ...rest, mix: [] };
  return {
    kept: {
      ...bare,
      ...(highPass === undefined && oldHighPass !== undefined && { highPass: oldHighPass }),
      ...(lowPass === undefined && oldLowPass !== undefined && { lowPass: oldLowPass }),
      ...(fir === undefined && oldFir !== undefined && { fir: oldFir }),
    },
    decided: {
      ...bare,
      filters: [],
      ...(isCrossover(highPass?.decided) && { highPass: highPass.decided }),
      ...(isCrossover(lowPass?.decided) && { lowPass: lowPass.decided }),
    },
  };
}

function isCrossover(value: unknown): value is Crossover {
  return typeof value === "object" && value !== null && "family" in value;
}
