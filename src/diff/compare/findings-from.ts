import { FINDING_KINDS, type FindingNumbers, SEVERITIES } from "../../base/findings/index.ts";
import type { ChangeEffect, ComparisonCurve, ComparisonFinding } from "../../model/index.ts";
import type { Change } from "../changes/index.ts";
import { collectiveWords } from "./collective.ts";
import { crossingWords } from "./crossing.ts";
import type { Draft } from "./draft.ts";
import type { Scene } from "./scene.ts";

export interface Findings {
  readonly findings: readonly ComparisonFinding[];
  readonly curves: readonly ComparisonCurve[];
}

/**
 * Findings from drafts: equal drafts about several places become one, most serious first; what two of them would tell
 * of the same crossover or loudspeaker stays with the more serious one.
 */
export function findingsFrom(scene: Scene, drafts: readonly Draft[]): Findings {
  const groups = new Map<string, Draft[]>();
  for (const [index, draft] of drafts.entries()) {
    const key =
      draft.alike === undefined
        ? String(index)
        : JSON.stringify([draft.code, draft.alike, crossingWords(draft.effects ?? [])]);
    groups.set(key, [...(groups.get(key) ?? []), draft]);
  }
  const positions = new Map(scene.set.changes.map((change, index) => [change, index]));
  const joined = [...groups.values()].map((group) => ({
    group,
    finding: joinedFinding(scene, group, positions),
  }));
  joined.sort((a, b) => bySeriousness(a.finding, b.finding));
  return withCurves(tellOnce(joined));
}

/** Most serious first; what is equally serious keeps the order of the documents. */
function bySeriousness(a: ComparisonFinding, b: ComparisonFinding): number {
  return (
    SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
    FINDING_KINDS.indexOf(a.kind) - FINDING_KINDS.indexOf(b.kind) ||
    (a.code < b.code ? -1 : a.code > b.code ? 1 : 0)
  );
}

type Joined = { readonly group: readonly Draft[]; readonly finding: ComparisonFinding };

function joinedFinding(
  scene: Scene,
  group: readonly Draft[],
  positions: ReadonlyMap<Change, number>,
): ComparisonFinding {
  const [first] = group as readonly [Draft, ...Draft[]];
  const { code, kind, severity, words, remedy, source } = first;
  const places = group.map(({ subject }) => ({ pointer: subject.pointer, words: subject.words }));
  const before = shared(group.map((draft) => draft.before));
  const after = shared(group.map((draft) => draft.after));
  const causes = group.flatMap((draft) => draft.causes.map((change) => positions.get(change)!));
  const effects = (first.effects ?? []).map(rounded);
  return {
    code,
    kind,
    severity,
    place: {
      pointer: places[0]!.pointer,
      words: collectiveWords(
        scene.after,
        group.map(({ subject }) => subject),
      ),
    },
    places,
    words,
    ...(before === undefined || after === undefined ? {} : { before, after }),
    effects,
    numbers: first.numbers ?? numbersFrom(effects),
    ...(remedy === undefined ? {} : { remedy }),
    ...(source === undefined ? {} : { source }),
    causes: causes.sort((a, b) => a - b),
    curves: [],
  };
}

/** The text that all have in common. */
function shared(texts: readonly (string | undefined)[]): string | undefined {
  return texts.every((text) => text === texts[0]) ? texts[0] : undefined;
}

function rounded(effect: ChangeEffect): ChangeEffect {
  const numbers = Object.entries(effect).flatMap(([name, value]) =>
    typeof value === "number" ? [[name, Math.round(value * 1000) / 1000 + 0]] : [],
  );
  return { ...effect, ...Object.fromEntries(numbers) };
}

/** The figures of the effects under their own names; of two with one name the first. */
function numbersFrom(effects: readonly ChangeEffect[]): FindingNumbers {
  const numbers: Record<string, number> = {};
  for (const effect of effects) {
    if (effect.kind === "crossing") continue;
    for (const [name, value] of Object.entries(effect)) {
      if (typeof value === "number") numbers[name] ??= value;
    }
  }
  return numbers;
}

/** How two ways meet, and what a whole loudspeaker does, is told by one finding only. */
function tellOnce(joined: readonly Joined[]): readonly Joined[] {
  const told = new Set<string>();
  return joined.map(({ group, finding }) => {
    const effects = finding.effects.filter((effect) => {
      if (effect.kind !== "crossing") return true;
      const fresh = !told.has(JSON.stringify(effect));
      told.add(JSON.stringify(effect));
      return fresh;
    });
    return { group, finding: { ...finding, effects, words: `${finding.words}${crossingWords(effects)}` } };
  });
}

function withCurves(joined: readonly Joined[]): Findings {
  const curves: ComparisonCurve[] = [];
  const positionOf = (curve: ComparisonCurve): number => {
    const known = curves.findIndex(({ title }) => title === curve.title);
    return known === -1 ? curves.push(curve) - 1 : known;
  };
  const findings = joined.map(({ group, finding }) => ({
    ...finding,
    // Drafts that were joined show the same curve.
    curves: (group[0]?.curves ?? []).map(positionOf),
  }));
  return { findings, curves };
}
