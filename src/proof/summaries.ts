import type {
  Configuration,
  FeedProof,
  PathCounts,
  PathVerdict,
  PresetProof,
  ProofTolerances,
  SourceChannelName,
} from "../model/index.ts";
import type { JudgedPath } from "./groups.ts";
import { graded, worstVerdict } from "./path-verdict.ts";
import { round } from "./round.ts";
import type { ScreenNames } from "./screen-names.ts";
import { EQUAL } from "./tolerances.ts";

const COUNTERS: Readonly<Record<PathVerdict, Exclude<keyof PathCounts, "paths">>> = {
  equal: "equal",
  "within-tolerance": "withinTolerance",
  audible: "audible",
  missing: "missing",
  "changed-by-decision": "changedByDecision",
  "left-out": "leftOut",
  new: "new",
};

/** How many paths have each verdict. */
export function countPaths(paths: readonly JudgedPath[]): PathCounts {
  const counts = {
    paths: 0,
    equal: 0,
    withinTolerance: 0,
    audible: 0,
    missing: 0,
    changedByDecision: 0,
    leftOut: 0,
    new: 0,
  };
  for (const { verdict } of paths) {
    counts.paths++;
    counts[COUNTERS[verdict]]++;
  }
  return counts;
}

export interface PresetProofOptions {
  readonly paths: readonly JudgedPath[];
  /** Delay of each preset beyond the common delay. */
  readonly delaysMs: ReadonlyMap<string, number>;
  readonly tolerances: ProofTolerances;
}

/** Every preset of either configuration, the old ones first. A preset without paths is equal. */
export function presetProofs(
  before: Configuration,
  after: Configuration,
  { paths, delaysMs, tolerances }: PresetProofOptions,
): readonly PresetProof[] {
  const byPreset = grouped(paths, ({ place }) => place.presetId);
  const presets = new Map([...after.presets, ...before.presets].map((preset) => [preset.id, preset]));
  const order = [...new Set([...before.presets, ...after.presets].map(({ id }) => id))];
  return order.map((id) => {
    const own = byPreset.get(id) ?? [];
    const delayMs = delaysMs.get(id) ?? 0;
    const delayVerdict = graded(delayMs, EQUAL.ms, tolerances.presetDelayMs);
    return {
      presetId: id,
      label: presets.get(id)!.label,
      verdict: worstVerdict([...own.map(({ verdict }) => verdict), delayVerdict]),
      counts: countPaths(own),
      delayVerdict,
      delayMs: round(delayMs, 6),
    };
  });
}

/** Everything that is fed in either configuration. A feed without paths is equal. */
export function feedProofs(names: ScreenNames, paths: readonly JudgedPath[]): readonly FeedProof[] {
  const byFeed = grouped(paths, ({ place }) => place.feed.id);
  return names.feeds.map((feed) => {
    const own = byFeed.get(feed.id) ?? [];
    return { ...feed, verdict: worstVerdict(own.map(({ verdict }) => verdict)), counts: countPaths(own) };
  });
}

/** Names of the source channels that paths start from. */
export function sourceChannelNames(
  before: Configuration,
  after: Configuration,
  names: ScreenNames,
  paths: readonly JudgedPath[],
): readonly SourceChannelName[] {
  const used = new Set(paths.map(({ place }) => place.sourceChannelId));
  const known = new Map<string, SourceChannelName>();
  for (const { configuration, nameOf } of [
    { configuration: before, nameOf: names.before.sourceChannel },
    { configuration: after, nameOf: names.after.sourceChannel },
  ]) {
    for (const preset of configuration.presets) {
      const source = configuration.sources.find(({ id }) => id === preset.sourceId);
      for (const channel of source?.channels ?? []) {
        const id = nameOf(preset.id, channel.id);
        if (!used.has(id) || known.has(id)) continue;
        known.set(id, { id, sourceLabel: source!.label, position: channel.position });
      }
    }
  }
  return [...known.values()];
}

function grouped<Item>(items: readonly Item[], keyOf: (item: Item) => string): ReadonlyMap<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}
