import type { Configuration, Source } from "../../../model/index.ts";
import type { LooseCable } from "../cables/assign-cables.ts";
import type { Socket } from "../cables/socket.ts";
import { channelAddress } from "./input-cables.ts";
import { channelsUse, sourceUse } from "./source-use.ts";

/** More sources of one kind than this are not tried in every combination: those that matter most come first. */
const TRIED_MAX = 12;

interface Claim {
  readonly source: Source;
  readonly cables: readonly LooseCable[];
  readonly weight: number;
}

/**
 * Where inputs of a kind are short, the sources that get theirs as a whole: the combination that matters most, and among
 * equals the one with the fewest cables. Half a source is of little use, so the rest is asked about.
 *
 * @returns the cables, those of all other sources as not required: they get what is left, the channels first that are
 *   missed most
 */
export function servedFirst(
  configuration: Configuration,
  cables: readonly LooseCable[],
  sockets: readonly Socket[],
): readonly LooseCable[] {
  const kinds = new Set(cables.map(({ socket }) => socket.kind));
  const behind = new Set<LooseCable>();
  for (const kind of kinds) {
    const own = cables.filter(({ socket, required }) => socket.kind === kind && required);
    const room = sockets.filter((socket) => socket.kind === kind && socket.direction === "input").length;
    if (own.length <= room) continue;
    const served = new Set(bestFitting(claimsOn(configuration, own), room).flatMap((claim) => claim.cables));
    for (const cable of own) if (!served.has(cable)) behind.add(cable);
  }
  if (behind.size === 0) return cables;
  const use = channelsUse(configuration);
  const missed = ({ items }: LooseCable) => 1 + items.reduce((sum, item) => sum + (use.get(item) ?? 0), 0);
  return cables.map((cable) =>
    behind.has(cable) ? { ...cable, required: false, missed: missed(cable) } : cable,
  );
}

function claimsOn(configuration: Configuration, cables: readonly LooseCable[]): readonly Claim[] {
  return configuration.sources
    .map((source): Claim => {
      const addresses = new Set(source.channels.map((channel) => channelAddress(source, channel)));
      return {
        source,
        cables: cables.filter(({ items }) => items.some((item) => addresses.has(item))),
        weight: sourceUse(configuration, source).weight,
      };
    })
    .filter((claim) => claim.cables.length > 0);
}

function bestFitting(claims: readonly Claim[], room: number): readonly Claim[] {
  const ranked = [...claims].sort((a, b) => b.weight - a.weight).slice(0, TRIED_MAX);
  let best: readonly Claim[] = [];
  let bestScore: readonly [number, number] = [-1, 0];
  for (let mask = 0; mask < 2 ** ranked.length; mask += 1) {
    const chosen = ranked.filter((_, index) => (mask >> index) & 1);
    const needed = new Set(chosen.flatMap((claim) => claim.cables)).size;
    if (needed > room) continue;
    const score = [chosen.reduce((sum, { weight }) => sum + weight, 0), -needed] as const;
    if (score[0] < bestScore[0] || (score[0] === bestScore[0] && score[1] <= bestScore[1])) continue;
    best = chosen;
    bestScore = score;
  }
  return best;
}
