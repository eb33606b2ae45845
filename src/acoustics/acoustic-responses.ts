import type { BoothkeepError } from "../base/errors/index.ts";
import { type Attempt, attempts } from "./attempt.ts";
import { cascadeResponse } from "./cascade.ts";
import type { AcousticConfiguration, AcousticEqualization } from "./configuration.ts";
import { type FilterResponse, filterResponse, flatResponse } from "./filter-response.ts";
import { listedSections } from "./filters/filter-kinds.ts";
import { type FrequencyAxis, frequencyAxis } from "./frequency-axis.ts";
import { graphicSections } from "./graphic.ts";
import { checkNumber, type SettingPlace } from "./limits.ts";
import { type OutputResponse, outputResponse } from "./output-response.ts";
import { listPaths, type Path } from "./paths.ts";
import type { UnitAcoustics } from "./unit-acoustics.ts";

/** At which frequencies responses are computed, and for which unit. */
export interface AcousticOptions {
  /** In Hz, increasing, below half the sample rate. @defaultValue 1/24 octave from 20 Hz to 20 kHz, as far as possible */
  readonly frequenciesHz?: ArrayLike<number>;
  /** What the unit itself does to sound. */
  readonly unit?: UnitAcoustics;
  /**
   * Told of every part that cannot be computed; the part and its paths are then left out. Absent: the first such part
   * throws.
   */
  readonly onError?: (error: BoothkeepError) => void;
}

/** A configuration turned into responses. Plain data: every filter is computed once, paths point to what they share. */
export interface AcousticResponses {
  readonly configuration: AcousticConfiguration;
  readonly axis: FrequencyAxis;
  /**
   * By EQ set, then by program channel. A channel without equalizer is not listed and passes unchanged; undefined: could
   * not be computed. See {@link equalizationResponse}.
   */
  readonly equalizations: ReadonlyMap<string, ReadonlyMap<string, FilterResponse | undefined>>;
  /** By output. */
  readonly outputs: ReadonlyMap<string, OutputResponse>;
  /** Every preset × source channel → program channel → output that sound can take, in the document's order. */
  readonly paths: readonly Path[];
}

/**
 * Turns a configuration into responses: the equalizers of every EQ set and program channel, the filters of every output,
 * and the list of paths. For path p (preset), s (source channel), c (program channel), o (output):
 *
 *     H(f) = 10^(level/20) · EQ[set, c](f) · X[o](f) · polarity · exp(−j2πf·delay)
 *
 * with level and delay summed over all stages. Levels in dB of the shared parts add up, so a path costs nothing until it
 * is asked for (`pathMagnitudeDb`, `pathResponse`).
 *
 * @throws BoothkeepError `acoustics.invalid-filter` with the place of a setting that cannot be computed,
 *   `acoustics.unknown-id` with the place of an id that points nowhere; see `onError`.
 * @example
 * const responses = acousticResponses(configuration);
 * const levels = pathMagnitudeDb(responses.paths[0]);
 */
export function acousticResponses(
  configuration: AcousticConfiguration,
  options: AcousticOptions = {},
): AcousticResponses {
  checkNumber("sampleRateHz", configuration.unit.sampleRateHz, "/unit/sampleRateHz");
  const axis = frequencyAxis(configuration.unit.sampleRateHz, options.frequenciesHz);
  const attempt = attempts(options.onError);
  const equalizations = new Map(
    configuration.equalizations.map((set, index) => [
      set.id,
      equalizerResponses(set, { axis, attempt, place: `/equalizations/${index}`, unit: options.unit ?? {} }),
    ]),
  );
  const channelIds = new Set(configuration.channels.map(({ id }) => id));
  const outputs = new Map<string, OutputResponse>();
  configuration.outputs.forEach((output, index) => {
    const place = `/outputs/${index}`;
    const response = attempt(() => outputResponse(output, { axis, place, channelIds, attempt }));
    if (response !== undefined) outputs.set(output.id, response);
  });
  const flat = flatResponse(axis.frequenciesHz.length);
  const latencyMs = options.unit?.latencyMs ?? 0;
  const paths = listPaths(configuration, { equalizations, outputs, flat, latencyMs, attempt });
  return { configuration, axis, equalizations, outputs, paths };
}

/**
 * What an EQ set does to a program channel; flat where the set has no equalizer for it.
 *
 * @returns undefined when the set does not exist or the equalizer could not be computed.
 */
export function equalizationResponse(
  { equalizations, axis }: AcousticResponses,
  equalizationId: string,
  channelId: string,
): FilterResponse | undefined {
  const set = equalizations.get(equalizationId);
  if (set === undefined || set.has(channelId)) return set?.get(channelId);
  return flatResponse(axis.frequenciesHz.length);
}

interface Work {
  readonly axis: FrequencyAxis;
  readonly attempt: Attempt;
  readonly place: SettingPlace;
  readonly unit: UnitAcoustics;
}

function equalizerResponses(
  set: AcousticEqualization,
  { axis, attempt, place, unit }: Work,
): ReadonlyMap<string, FilterResponse | undefined> {
  return new Map(
    set.channels.map(({ channelId, graphic, parametric = [] }, index) => {
      const at = `${place}/channels/${index}`;
      const response = attempt(() => {
        const options = { q: unit.graphicQ, place: `${at}/graphic` };
        const sections = [
          ...(graphic ? graphicSections(graphic, axis.sampleRateHz, options) : []),
          ...listedSections(parametric, axis.sampleRateHz, `${at}/parametric`),
        ];
        return filterResponse(cascadeResponse(sections, axis));
      });
      return [channelId, response];
    }),
  );
}
