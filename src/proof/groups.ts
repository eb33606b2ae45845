import type { PathDeviation, PathGroup, PathSet } from "../model/index.ts";
import type { PathPlace } from "./path-pairs.ts";
import { compareVerdicts, type Judgement } from "./path-verdict.ts";
import { round } from "./round.ts";

/** A path with its verdict. */
export interface JudgedPath extends Judgement {
  readonly place: PathPlace;
  /** Label of the new program channel, where it is another one. */
  readonly channelAfter?: string;
  /** Absent where the path does not exist, or sounds, on one side only. */
  readonly deviation?: PathDeviation;
}

/** Decimals of what a proof prints; the verdict was made before. */
const DECIMALS: Readonly<Record<keyof Omit<Required<PathDeviation>, "polarity">, number>> = {
  responseDb: 3,
  responseAtHz: 1,
  responseRmsDb: 3,
  levelDb: 3,
  lowEdgeDb: 3,
  highEdgeDb: 3,
  phaseDeg: 2,
  phaseAtHz: 1,
  delayMs: 5,
  seatsDb: 3,
};

/**
 * Joins paths with the same verdict, reasons and deviation; inside a group, those of several presets that run the same
 * way. The most serious group comes first, among equals the largest deviation, then the order of the paths.
 */
export function groupPaths(paths: readonly JudgedPath[]): readonly PathGroup[] {
  const groups = new Map<string, { readonly of: JudgedPath; readonly paths: JudgedPath[] }>();
  for (const path of paths) {
    const of = { ...path, ...(path.deviation && { deviation: rounded(path.deviation) }) };
    // Equal paths differ by less than anyone can set: what is left of a deviation is no reason to list them apart.
    const key = path.verdict === "equal" ? "equal" : JSON.stringify([of.verdict, of.reasons, of.deviation]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { of, paths: [path] });
    else group.paths.push(path);
  }
  return [...groups.values()]
    .sort((a, b) => compareVerdicts(a.of.verdict, b.of.verdict) || sizeOf(b.of) - sizeOf(a.of))
    .map(({ of, paths: members }, index) => ({
      id: `g${index + 1}`,
      verdict: of.verdict,
      reasons: of.reasons,
      ...(of.deviation !== undefined && of.verdict !== "equal" && { deviation: of.deviation }),
      pathCount: members.length,
      paths: pathSets(members),
    }));
}

function rounded(deviation: PathDeviation): PathDeviation {
  const { polarity, ...numbers } = deviation;
  const entries = Object.entries(numbers) as [keyof typeof DECIMALS, number][];
  const short = entries.map(([name, value]) => [name, round(value, DECIMALS[name])]);
  return { ...(Object.fromEntries(short) as unknown as typeof numbers), polarity };
}

function sizeOf({ deviation }: JudgedPath): number {
  return deviation === undefined ? Number.POSITIVE_INFINITY : Math.abs(deviation.responseDb);
}

function pathSets(paths: readonly JudgedPath[]): readonly PathSet[] {
  const sets = new Map<string, { readonly set: Omit<PathSet, "presetIds">; readonly presetIds: string[] }>();
  for (const { place, channelAfter } of paths) {
    const key = `${place.sourceChannelId}\n${place.channel}\n${channelAfter ?? ""}\n${place.feed.id}`;
    const known = sets.get(key);
    if (known !== undefined) known.presetIds.push(place.presetId);
    else {
      const set = {
        sourceChannelId: place.sourceChannelId,
        channel: place.channel,
        ...(channelAfter !== undefined && { channelAfter }),
        feedId: place.feed.id,
      };
      sets.set(key, { set, presetIds: [place.presetId] });
    }
  }
  return [...sets.values()].map(({ set, presetIds }) => ({ presetIds, ...set }));
}
