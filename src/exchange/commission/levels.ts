import type { PlacedLoudspeaker } from "./room.ts";

/**
 * Levels at the reference seat against a screen channel, in dB: surrounds 82 dBC against 85 dBC, LFE 10 dB up in its
 * band. Source: SMPTE RP 200.
 */
const WANTED_DB = { screen: 0, surround: -3, subwoofer: 10 } as const;

/**
 * Level in dB, against one screen channel, that each of `boxes` boxes of a channel must play: subwoofers add up in phase,
 * arrays in power (common practice, no source).
 */
export function wantedDb(kind: keyof typeof WANTED_DB, boxes: number): number {
  return WANTED_DB[kind] - (kind === "subwoofer" ? 20 : 10) * Math.log10(boxes);
}

/**
 * Gain in dB of every way of every loudspeaker, so that all arrive as loud as they should by their sensitivities and
 * distances: 2.83 V at 1 m, 6 dB less for each doubling of the distance (free field). The way that needs most gets 0 dB,
 * all others less. A start, never a calibration: rooms, screens and amplifiers are not in it.
 *
 * @returns by loudspeaker id, then by way id
 */
export function startGains(
  placed: readonly PlacedLoudspeaker[],
): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const needed = placed.map((item) => {
    const { loudspeaker } = item;
    const loudDb =
      wantedDb(kindOf(item), boxesTogether(item, placed)) + 20 * Math.log10(loudspeaker.distanceM);
    return {
      id: loudspeaker.id,
      ways: loudspeaker.ways.map(({ id, sensitivityDb }) => [id, loudDb - (sensitivityDb ?? 0)] as const),
    };
  });
  const most = Math.max(...needed.flatMap(({ ways }) => ways.map(([, gainDb]) => gainDb)));
  return new Map(
    needed.map(({ id, ways }) => [id, new Map(ways.map(([wayId, gainDb]) => [wayId, gainDb - most]))]),
  );
}

function kindOf({ loudspeaker: { placement } }: PlacedLoudspeaker): keyof typeof WANTED_DB {
  if (placement === "subwoofer") return "subwoofer";
  return placement.startsWith("surround") ? "surround" : "screen";
}

/** The boxes of an output, times the outputs of the same channel. */
function boxesTogether(item: PlacedLoudspeaker, placed: readonly PlacedLoudspeaker[]): number {
  const channels = new Set(item.mix.map(({ channelId }) => channelId));
  const sameChannel = placed.filter(({ mix }) => mix.some(({ channelId }) => channels.has(channelId)));
  return sameChannel.length * item.loudspeaker.boxes;
}
