import { msFromMetres } from "../base/units/index.ts";
import { CHANNELS, type ChannelLabel, type ChannelRole } from "../model/index.ts";
import type { FedWay, RuleContext } from "./context.ts";

/** When a program channel arrives at the reference seat from one output. */
export interface Arrival {
  readonly fed: FedWay;
  readonly label: ChannelLabel;
  readonly channelIndex: number;
  /** Channel delay, output delay and the way through the air, in milliseconds; what all share is left out. */
  readonly arrivalMs: number;
}

/** The arrivals of every channel from every loudspeaker whose distance is known, in the order of the document. */
export function arrivalsOf({ configuration, channels, fedWays }: RuleContext): readonly Arrival[] {
  return fedWays.flatMap((fed) => {
    const { distanceM } = fed.loudspeaker;
    if (distanceM === undefined) return [];
    const airMs = msFromMetres(distanceM, configuration.screen.temperatureC);
    return fed.item.mix.flatMap(({ channelId }) => {
      const channel = channels.get(channelId);
      if (channel === undefined) return [];
      const arrivalMs = channel.item.delayMs + fed.item.delayMs + airMs;
      return [{ fed, label: channel.item.label, channelIndex: channel.index, arrivalMs }];
    });
  });
}

/** The earliest arrival of each channel of a role: of several ways or loudspeakers the first one counts. */
export function firstArrivals(arrivals: readonly Arrival[], role: ChannelRole): readonly Arrival[] {
  const earliest = new Map<ChannelLabel, Arrival>();
  for (const arrival of arrivals) {
    if (CHANNELS[arrival.label].role !== role || !isOwnPlace(arrival)) continue;
    const known = earliest.get(arrival.label);
    if (known === undefined || arrival.arrivalMs < known.arrivalMs) earliest.set(arrival.label, arrival);
  }
  return [...earliest.values()];
}

/** The low end of a screen channel that a subwoofer plays does not count. */
function isOwnPlace({ fed }: Arrival): boolean {
  return fed.loudspeaker.placement !== "subwoofer";
}

/** When the last screen channel arrives; undefined where no distance is known. */
export function screenArrivalMs(arrivals: readonly Arrival[]): number | undefined {
  const screen = firstArrivals(arrivals, "screen");
  return screen.length === 0 ? undefined : Math.max(...screen.map(({ arrivalMs }) => arrivalMs));
}
