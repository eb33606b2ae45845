import {
  type AcousticConfiguration,
  acousticResponses,
  equalizationResponse,
  frequencyGrid,
  type UnitAcoustics,
} from "../../acoustics/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import { unitAcoustics } from "../../profile/index.ts";
import type { Plan } from "./plan.ts";

/** An equalizer before and after, in dB at the same frequencies. */
export interface EqualizerCurves {
  /** Address of the equalizer, as in the plan's list of equalizers. */
  readonly address: string;
  readonly title: string;
  readonly frequenciesHz: readonly number[];
  readonly beforeDb: readonly number[];
  readonly afterDb: readonly number[];
}

const POINTS_PER_OCTAVE = 12;

/**
 * The curves of all equalizers that a plan did not just copy, the largest error first.
 *
 * @param pointsPerOctave of the frequencies. @defaultValue 12, enough for drawings
 */
export function equalizerCurves(
  plan: Plan,
  old: Configuration,
  {
    from,
    to,
    pointsPerOctave = POINTS_PER_OCTAVE,
  }: { readonly from: UnitProfile; readonly to: UnitProfile; readonly pointsPerOctave?: number },
): readonly EqualizerCurves[] {
  const changed = plan.equalizers
    .filter(({ method }) => method !== "copied")
    .toSorted((a, b) => b.rmsDb - a.rmsDb || Math.abs(b.maxDb) - Math.abs(a.maxDb));
  const now = plan.configuration;
  const lowestRate = Math.min(old.unit.sampleRateHz, now.unit.sampleRateHz);
  const frequenciesHz = frequencyGrid({ pointsPerOctave, belowHz: lowestRate / 2 });
  const before = curvesOf(old, unitAcoustics(from, old.unit.sampleRateHz), frequenciesHz);
  const after = curvesOf(now, unitAcoustics(to, now.unit.sampleRateHz), frequenciesHz);
  return changed.flatMap(({ address, words }) => {
    const [beforeDb, afterDb] = [before(address), after(address)];
    if (beforeDb === undefined || afterDb === undefined) return [];
    return [{ address, title: words, frequenciesHz: [...frequenciesHz], beforeDb, afterDb }];
  });
}

/** Looks up the curve of an EQ set's channel or of an output's driver EQ, by its address. */
function curvesOf(
  configuration: Configuration,
  unit: UnitAcoustics,
  frequenciesHz: Float64Array,
): (address: string) => readonly number[] | undefined {
  const asSets: AcousticConfiguration = {
    ...configuration,
    equalizations: [
      ...configuration.equalizations,
      // A driver EQ alone, told apart from EQ sets by its address.
      ...configuration.outputs.map(({ id, filters }) => ({
        id: `outputs/${id}`,
        channels: [{ channelId: "", parametric: filters }],
      })),
    ],
    presets: [],
    outputs: [],
    loudspeakers: [],
  };
  const responses = acousticResponses(asSets, { frequenciesHz, unit });
  return (address) => {
    const [list, id, , channelId] = address.split("/");
    const response =
      list === "outputs"
        ? equalizationResponse(responses, `outputs/${id}`, "")
        : equalizationResponse(responses, id ?? "", channelId ?? "");
    return response === undefined ? undefined : [...response.magnitudeDb];
  };
}
