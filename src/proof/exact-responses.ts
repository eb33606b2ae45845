import type { AcousticResponses } from "../acoustics/index.ts";
import { acousticResponses, type FilterResponse, type UnitAcoustics } from "../acoustics/index.ts";
import type { Configuration } from "../model/index.ts";

/** A response at other frequencies than those that it was computed at, in Hz, increasing. */
export type ResponseAt = (frequenciesHz: Float64Array) => FilterResponse;

/** The filters of a configuration at any frequencies, by their responses. A response that is not listed is flat. */
export type ExactResponses = ReadonlyMap<FilterResponse, ResponseAt>;

/** Makes the equalizers, output filters and crossovers of a configuration available at any frequencies. */
export function exactResponses(
  configuration: Configuration,
  responses: AcousticResponses,
  unit: UnitAcoustics,
): ExactResponses {
  const exact = new Map<FilterResponse, ResponseAt>();
  const nothing = {
    sources: [],
    channels: [],
    equalizations: [],
    presets: [],
    outputs: [],
    loudspeakers: [],
  };
  const bare = { ...nothing, unit: configuration.unit };
  for (const { id, channels } of configuration.equalizations) {
    for (const channel of channels) {
      const response = responses.equalizations.get(id)?.get(channel.channelId);
      if (response === undefined) continue;
      const alone = { ...bare, equalizations: [{ id, channels: [channel] }] };
      exact.set(
        response,
        (frequenciesHz) =>
          acousticResponses(alone, { frequenciesHz, unit }).equalizations.get(id)!.get(channel.channelId)!,
      );
    }
  }
  for (const output of configuration.outputs) {
    const response = responses.outputs.get(output.id);
    if (response === undefined) continue;
    const alone = { ...bare, outputs: [{ ...output, mix: [] }] };
    const at = (frequenciesHz: Float64Array) =>
      acousticResponses(alone, { frequenciesHz }).outputs.get(output.id)!;
    exact.set(response.filters, (frequenciesHz) => at(frequenciesHz).filters);
    exact.set(response.crossover, (frequenciesHz) => at(frequenciesHz).crossover);
  }
  return exact;
}
