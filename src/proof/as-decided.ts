import { acousticResponses, inSeries, type OutputResponse } from "../acoustics/index.ts";
import type { Configuration, Crossover, Output } from "../model/index.ts";
import type { Decided } from "./given-up.ts";
import type { ScreenNames } from "./screen-names.ts";

export interface AsDecidedOptions {
  readonly names: ScreenNames;
  readonly decisions: Pick<Decided, "setting">;
  readonly frequenciesHz: Float64Array;
  /** Sample rate of the new unit, which runs what was decided. */
  readonly sampleRateHz: number;
}

/**
 * The outputs of the old configuration whose high-pass, low-pass or FIR filter somebody decided on, by id, as they have to
 * sound now: with the decided filter in the place of the old one, all else as it was.
 */
export function outputsAsDecided(
  { unit, outputs }: Configuration,
  before: ReadonlyMap<string, OutputResponse>,
  { names, decisions, frequenciesHz, sampleRateHz }: AsDecidedOptions,
): ReadonlyMap<string, OutputResponse> {
  const changed = outputs.flatMap((output) => {
    const feedId = names.before.feeds.get(output.id)?.id;
    const change = feedId === undefined ? undefined : decidedFilters(output, feedId, decisions);
    return change === undefined ? [] : [change];
  });
  if (changed.length === 0) return new Map();
  const responsesOf = (list: readonly Output[], rateHz: number) => {
    const part = { sources: [], channels: [], equalizations: [], presets: [], loudspeakers: [] };
    return acousticResponses({ ...part, unit: { sampleRateHz: rateHz }, outputs: list }, { frequenciesHz })
      .outputs;
  };
  const kept = responsesOf(
    changed.map((change) => change.kept),
    unit.sampleRateHz,
  );
  const decided = responsesOf(
    changed.map((change) => change.decided),
    sampleRateHz,
  );
  return new Map(
    [...kept].map(([id, { crossover, filters }]) => {
      const added = decided.get(id)!.crossover;
      return [
        id,
        {
          crossover: inSeries(crossover, added),
          filters: inSeries(filters, added),
          mixDb: before.get(id)!.mixDb,
        },
      ];
    }),
  );
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
