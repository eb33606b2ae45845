import { msFromMetres } from "../../base/units/index.ts";
import type { PlacedLoudspeaker } from "./room.ts";

/** Delays in milliseconds, before they are brought to the unit's steps. */
export interface StartDelays {
  /** By program channel; channels that are not listed have none. */
  readonly channels: ReadonlyMap<string, number>;
  /** By loudspeaker, without the alignment of its ways. */
  readonly loudspeakers: ReadonlyMap<string, number>;
}

/**
 * Delays from distances: screen loudspeakers and subwoofers arrive at the reference seat together with the farthest of
 * them, surrounds `afterMs` later. What all arrays of a surround channel share is the channel's delay, the rest their
 * own. An array farther away than that gets no delay.
 */
export function startDelays(
  placed: readonly PlacedLoudspeaker[],
  { temperatureC, afterMs }: { readonly temperatureC: number; readonly afterMs: number },
): StartDelays {
  const isSurround = ({ loudspeaker }: PlacedLoudspeaker) => loudspeaker.placement.startsWith("surround");
  const farthestM = Math.max(
    ...placed.filter((item) => !isSurround(item)).map(({ loudspeaker }) => loudspeaker.distanceM),
  );
  const wishMs = (item: PlacedLoudspeaker) =>
    Math.max(
      0,
      msFromMetres(farthestM - item.loudspeaker.distanceM, temperatureC) + (isSurround(item) ? afterMs : 0),
    );
  const channels = new Map<string, number>();
  for (const item of placed.filter(isSurround)) {
    for (const { channelId } of item.mix) {
      channels.set(channelId, Math.min(wishMs(item), channels.get(channelId) ?? Number.POSITIVE_INFINITY));
    }
  }
  const loudspeakers = placed.map((item) => {
    const ofChannels = item.mix.map(({ channelId }) => channels.get(channelId) ?? 0);
    return [item.loudspeaker.id, wishMs(item) - Math.max(...ofChannels)] as const;
  });
  return { channels, loudspeakers: new Map(loudspeakers.map(([id, ms]) => [id, Math.max(0, ms)])) };
}
