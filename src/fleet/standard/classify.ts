import { isDeepStrictEqual } from "node:util";
import { type Configuration, placeAt } from "../../model/index.ts";
import type { CompiledStandard, HeldLeaf, HeldList } from "./compile.ts";
import {
  type Deviation,
  deviationsFrom,
  type ExtraItem,
  holds,
  type MissingItem,
  type ValueDeviation,
} from "./deviations.ts";
import { onUnitScale } from "./fader-scale.ts";
import { hasMember, kindPathOf } from "./kinds.ts";
import { ruleAt } from "./rule-at.ts";
import { groupSaysEnough, saysEnough } from "./says-enough.ts";
import type { Settle } from "./unit-steps.ts";

/** What becomes of a deviation before anybody was asked, and why. */
export interface Classified {
  readonly deviation: Deviation;
  readonly becomes: "taken" | "kept" | "asks" | "by-hand";
  readonly why: string;
  /** The deviation that decides about this one: of a trigger of another kind, all goes with the kind. */
  readonly leader?: Classified;
}

export interface ClassifyOptions {
  readonly standard: CompiledStandard;
  /** The version that the screen last followed. */
  readonly followed?: CompiledStandard | undefined;
  readonly settle: Settle;
}

/**
 * Sorts deviations from a new version of a standard by what the version last followed says of the same place. Where only
 * the standard changed, the screen follows; where only the screen changed, it keeps; where both changed, or where nothing
 * was ever settled, somebody is asked. What the house does not own is left to a person.
 */
export function classified(
  configuration: Configuration,
  deviations: readonly Deviation[],
  { standard, followed, settle }: ClassifyOptions,
): readonly Classified[] {
  const drifted = followed === undefined ? [] : deviationsFrom(configuration, followed, settle);
  const fateOf = (deviation: Deviation): Fate => {
    if (deviation.kind === "value") return value(deviation, { standard, followed, settle });
    if (deviation.kind === "missing-item") return missing(deviation, followed);
    return extra(deviation, followed, drifted);
  };
  const fates = deviations.map((deviation): Classified => {
    if (deviation.owner !== "house") {
      return { deviation, becomes: "by-hand", why: BY_HAND[deviation.owner] };
    }
    if (deviation.kind === "missing-item" && !saysEnough(configuration, deviation)) {
      return { deviation, becomes: "by-hand", why: SAYS_TOO_LITTLE };
    }
    if (deviation.kind === "value" && !groupSaysEnough(configuration, deviation, standard)) {
      return { deviation, becomes: "by-hand", why: GROUP_SAYS_TOO_LITTLE };
    }
    if (deviation.kind === "value" && isOfOtherKind(configuration, deviation)) {
      return { deviation, becomes: "by-hand", why: OTHER_KIND };
    }
    return { deviation, ...fateOf(deviation) };
  });
  const kinds = new Map(fates.map((fate) => [fate.deviation.path.join("/"), fate]));
  return fates.map((fate) => {
    const leader = kinds.get(kindPathOf(fate.deviation.path)?.join("/") ?? "");
    if (leader === undefined) return fate;
    return { ...fate, becomes: leader.becomes, why: leader.why, leader };
  });
}

/** Whether the screen's item has another kind of trigger or action, which has no such member. */
function isOfOtherKind(configuration: Configuration, { path }: ValueDeviation): boolean {
  const kindPath = kindPathOf(path);
  if (kindPath === undefined) return false;
  return !hasMember(path[2]!, placeAt(configuration, kindPath)?.value, path[3]!);
}

const SAYS_TOO_LITTLE = "The standard says only part of it, too little to add it.";

const OTHER_KIND = "The screen's item is of another kind, which the standard does not hold.";
const GROUP_SAYS_TOO_LITTLE =
  "The screen has nothing of the kind, and the standard says too little to add it.";

const BY_HAND = {
  alignment: "Found by measuring the room: only a measurement can change it.",
  unit: "Tied to the unit and its cables: a person has to look.",
  screen: "A fact of the auditorium: a person has to look.",
  document: "A remark in the document: a person has to look.",
} as const;

type Fate = Omit<Classified, "deviation">;

const TAKEN_CHANGED: Fate = {
  becomes: "taken",
  why: "The standard changed; the screen followed it until now.",
};
const KEPT: Fate = { becomes: "kept", why: "The screen chose this; the standard did not change here." };
const BOTH: Fate = { becomes: "asks", why: "The screen went its own way, and the standard changed too." };
const NEVER: Fate = {
  becomes: "asks",
  why: "The standard did not hold this before, and the screen has it otherwise.",
};

function value(
  { rule, path, field, actual }: ValueDeviation,
  { standard, followed, settle }: ClassifyOptions,
): Fate {
  const old = followed && (ruleAt(followed.leaves, field, path) as HeldLeaf | undefined);
  if (followed === undefined || old === undefined || old.hold.kind === "left-to-screen") return NEVER;
  // A mark on another scale is another level, though the number is the same.
  const before = onUnitScale(old.hold, path, followed.standard, settle.fader);
  const now = onUnitScale(rule.hold, path, standard.standard, settle.fader);
  if (isDeepStrictEqual(before, now)) return KEPT;
  return holds(before, actual, path, settle) ? TAKEN_CHANGED : BOTH;
}

function missing({ path, field, item }: MissingItem, followed: CompiledStandard | undefined): Fate {
  const old = listRule(followed, field, path);
  const before = itemsOf(old)?.get(path.at(-1)!);
  if (before === undefined)
    return { becomes: "taken", why: "New in the standard; the screen has nothing there." };
  return isDeepStrictEqual(before, item) ? KEPT : BOTH;
}

function extra(
  { path, field }: ExtraItem,
  followed: CompiledStandard | undefined,
  drifted: readonly Deviation[],
): Fate {
  const old = listRule(followed, field, path);
  if (old === undefined || old.hold.kind === "left-to-screen") return NEVER;
  if (old.hold.items.has(path.at(-1)!))
    return drifted.some((other) => isInside(other.path, path)) ? BOTH : TAKEN_CHANGED;
  return old.hold.kind === "these-only" ? KEPT : NEVER;
}

function listRule(
  followed: CompiledStandard | undefined,
  field: string,
  path: readonly string[],
): HeldList | undefined {
  return followed && (ruleAt(followed.lists, field, path.slice(0, -1)) as HeldList | undefined);
}

function itemsOf(rule: HeldList | undefined) {
  return rule === undefined || rule.hold.kind === "left-to-screen" ? undefined : rule.hold.items;
}

/** Whether a place is another one, or lies inside it. */
export function isInside(path: readonly string[], outer: readonly string[]): boolean {
  return outer.every((part, index) => path[index] === part);
}
