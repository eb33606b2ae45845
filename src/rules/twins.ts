import type { ChannelLabel, Placement } from "../model/index.ts";
import type { FedWay, RuleContext } from "./context.ts";

/** Placements that mirror each other about the centre line of the room. */
const MIRRORED: readonly (readonly [Placement, Placement])[] = [
  ["screen-left", "screen-right"],
  ["screen-left-center", "screen-right-center"],
  ["surround-left", "surround-right"],
  ["surround-left-side", "surround-right-side"],
  ["surround-left-rear", "surround-right-rear"],
];

/** Channels that mirror each other, and whose settings differ only for a reason. */
export const TWIN_CHANNELS: readonly (readonly [ChannelLabel, ChannelLabel])[] = [
  ["L", "R"],
  ["Lc", "Rc"],
  ["Ls", "Rs"],
  ["Lss", "Rss"],
  ["Lrs", "Rrs"],
];

/** Two outputs that do the same work on both sides of the room, or for two subwoofers. */
export interface TwinOutputs {
  readonly left: FedWay;
  readonly right: FedWay;
}

/** Outputs that feed the same way of loudspeakers at mirrored placements, and of subwoofers among each other. */
export function twinOutputs(context: RuleContext): readonly TwinOutputs[] {
  const at = (placement: Placement) =>
    context.fedWays.filter((fed) => fed.loudspeaker.placement === placement);
  const mirrored = MIRRORED.flatMap(([left, right]) => pairs(at(left), at(right)));
  const [first, ...others] = at("subwoofer");
  const subs = first === undefined ? [] : others.map((right) => ({ left: first, right }));
  return [...mirrored, ...subs.filter(({ left, right }) => left.loudspeaker.id !== right.loudspeaker.id)];
}

/** Pairs by band; where several loudspeakers stand on each side, the first with the first. */
function pairs(left: readonly FedWay[], right: readonly FedWay[]): TwinOutputs[] {
  const free = [...right];
  return left.flatMap((item) => {
    const index = free.findIndex(
      (candidate) =>
        candidate.way.band === item.way.band && candidate.loudspeaker.drive === item.loudspeaker.drive,
    );
    const [twin] = index < 0 ? [] : free.splice(index, 1);
    return twin === undefined ? [] : [{ left: item, right: twin }];
  });
}
