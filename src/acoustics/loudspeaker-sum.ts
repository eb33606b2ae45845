import { addScaledInto, complexArray } from "../base/numeric/index.ts";
import { amplitudeFromDb } from "../base/units/index.ts";
import type { AcousticResponses } from "./acoustic-responses.ts";
import type { AcousticOutput } from "./configuration.ts";
import { type FilterResponse, filterResponse } from "./filter-response.ts";
import { delayedResponse } from "./path-responses.ts";
import { compareWays, type WayPair } from "./way-pair.ts";

/** What of the settings goes into a sum. */
export interface LoudspeakerSumOptions {
  /**
   * `settings`: everything that an output does. `crossovers`: high-pass, low-pass and polarity alone, as if the rest
   * (gain, delay, driver EQ) had already made the drivers equal in level, flat and in time.
   *
   * @defaultValue "settings"
   */
  readonly of?: "settings" | "crossovers";
}

/** One way of a loudspeaker, as a program channel reaches it. */
export interface WayResponse {
  readonly wayId: string;
  /** The outputs that feed it. */
  readonly outputIds: readonly string[];
  /** From the program channel (behind its equalizer, level and delay) to an ideal driver. */
  readonly response: FilterResponse;
}

/** The ways of one loudspeaker summed with ideal drivers: flat, equally loud, at one point. */
export interface LoudspeakerSum {
  readonly loudspeakerId: string;
  /** The program channel. */
  readonly channelId: string;
  /** From the lowest to the highest by the band that they pass, whatever they are called. */
  readonly ways: readonly WayResponse[];
  readonly sum: FilterResponse;
  /** Every two neighbours of `ways`, from the lowest up. */
  readonly pairs: readonly WayPair[];
}

/**
 * Sums the ways of every loudspeaker for every program channel that reaches it. Mutes are ignored; outputs whose filters
 * could not be computed are missing; several outputs on one way add up in phase (of `crossovers`: their mean).
 *
 * @example
 * for (const { sum, pairs } of loudspeakerSums(responses, { of: "crossovers" })) { … }
 */
export function loudspeakerSums(
  responses: AcousticResponses,
  { of = "settings" }: LoudspeakerSumOptions = {},
): readonly LoudspeakerSum[] {
  const feeds = loudspeakerFeeds(responses);
  return responses.configuration.loudspeakers.flatMap(({ id }) => {
    const own = feeds.filter((feed) => feed.loudspeakerId === id);
    const channelIds = [...new Set(own.map((feed) => feed.channelId))];
    return channelIds.map((channelId) => {
      const reaching = own.filter((feed) => feed.channelId === channelId);
      return sumOfWays(responses, { loudspeakerId: id, channelId, feeds: reaching, of });
    });
  });
}

/** One program channel's share of one output that feeds a way. */
interface Feed {
  readonly loudspeakerId: string;
  readonly wayId: string;
  readonly channelId: string;
  readonly mixDb: number;
  readonly output: AcousticOutput;
}

function loudspeakerFeeds({ configuration, outputs }: AcousticResponses): readonly Feed[] {
  return configuration.outputs.flatMap((output) => {
    const { loudspeakerId, wayId } = output.feeds;
    const mix = outputs.get(output.id)?.mixDb;
    if (loudspeakerId === undefined || wayId === undefined || mix === undefined) return [];
    return [...mix].map(([channelId, mixDb]) => ({ loudspeakerId, wayId, channelId, mixDb, output }));
  });
}

interface SumInput {
  readonly loudspeakerId: string;
  readonly channelId: string;
  readonly feeds: readonly Feed[];
  readonly of: "settings" | "crossovers";
}

function sumOfWays(
  responses: AcousticResponses,
  { loudspeakerId, channelId, feeds, of }: SumInput,
): LoudspeakerSum {
  const wayIds = [...new Set(feeds.map((feed) => feed.wayId))];
  const ways = wayIds
    .map((wayId) =>
      wayResponse(
        responses,
        wayId,
        feeds.filter((feed) => feed.wayId === wayId),
        of,
      ),
    )
    .map((way) => ({ way, center: bandCenter(way.response) }))
    .sort((a, b) => a.center - b.center)
    .map(({ way }) => way);
  const sum = complexArray(responses.axis.frequenciesHz.length);
  for (const way of ways) addScaledInto(sum, way.response, 1);
  const { frequenciesHz } = responses.axis;
  const pairs = ways.slice(1).map((upper, k) => compareWays(ways[k]!, upper, frequenciesHz));
  return { loudspeakerId, channelId, ways, sum: filterResponse(sum), pairs };
}

function wayResponse(
  { outputs, axis }: AcousticResponses,
  wayId: string,
  feeds: readonly Feed[],
  of: "settings" | "crossovers",
): WayResponse {
  const total = complexArray(axis.frequenciesHz.length);
  for (const { output, mixDb } of feeds) {
    const { crossover, filters } = outputs.get(output.id)!;
    const sign = output.polarity === "inverted" ? -1 : 1;
    if (of === "crossovers") addScaledInto(total, crossover, sign / feeds.length);
    else {
      const delayed = delayedResponse(filters, output.delayMs, axis);
      addScaledInto(total, delayed, sign * amplitudeFromDb(mixDb + output.gainDb));
    }
  }
  return { wayId, outputIds: feeds.map(({ output }) => output.id), response: filterResponse(total) };
}

/** Where on the frequency axis the passed power has its center of gravity, as a fractional position. */
function bandCenter({ re, im }: FilterResponse): number {
  let power = 0;
  let moment = 0;
  for (let k = 0; k < re.length; k++) {
    const p = re[k]! ** 2 + im[k]! ** 2;
    power += p;
    moment += k * p;
  }
  return power > 0 ? moment / power : re.length;
}
