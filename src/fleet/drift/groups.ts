import type { FindingKind, Severity } from "../../base/findings/index.ts";
import { FINDING_KINDS } from "../../base/findings/index.ts";
import { naturalOrder } from "../../base/text/index.ts";
import { type Configuration, type FieldOwner, fieldAt, fieldsUnder, type Json } from "../../model/index.ts";
import { type Deviation, deviationWords, isFaderMark, median } from "../standard/index.ts";
import type { Acceptance } from "./accepted.ts";
import type { Since } from "./since.ts";

/** One screen in a group of deviations. */
export interface DriftedScreen {
  readonly name: string;
  /** What it has; null: nothing. */
  readonly actual: Json | null;
  /** How far off, of a number: from the value, or from the nearer limit; signed, in the unit. */
  readonly off?: number;
  readonly since?: Since;
  /** By which decision it stays; absent: by none. */
  readonly accepted?: Acceptance;
}

/** The same deviation of any number of screens: one thing to tell. */
export interface DriftFinding {
  readonly code: DriftCode;
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** By ids. */
  readonly place: string;
  readonly field: string;
  /** The place in the engineer's words, and what stands there. */
  readonly words: string;
  readonly label: string;
  readonly unit: string;
  /** Who has to put it right: `house` by applying the standard; the others by hand. */
  readonly owner: FieldOwner;
  /** What the standard says: the value, `[min, max]`, the item; null: nothing. */
  readonly standard: Json;
  readonly reason?: string;
  readonly screens: readonly DriftedScreen[];
  /** How far off, of numbers: over all screens, signed, in the unit. */
  readonly off?: { readonly least: number; readonly median: number; readonly greatest: number };
}

/** What a deviation is. */
export type DriftCode =
  | "standard/other-value"
  | "standard/outside-limits"
  | "standard/missing-item"
  | "standard/extra-item";

const SEVERITY: Readonly<Record<FindingKind, Severity>> = {
  protection: "error",
  sound: "warning",
  routing: "warning",
  operation: "warning",
  record: "advice",
};

/** A deviation with the screens that have it, as plain data: can be sent to another thread. */
export interface DriftGroup {
  readonly key: string;
  readonly of: Omit<DriftFinding, "screens" | "off">;
  /** Whether its screens have it by decision. */
  readonly isAccepted: boolean;
  readonly screens: DriftedScreen[];
}

/** Gathers deviations of many screens so that each different one is told once. Screens are not kept. */
export class DriftGroups {
  readonly #groups = new Map<string, DriftGroup>();

  add(
    name: string,
    configuration: Configuration,
    deviations: readonly {
      readonly deviation: Deviation;
      readonly since: Since | undefined;
      readonly accepted?: Acceptance | undefined;
    }[],
  ): void {
    for (const { deviation, since, accepted } of deviations) {
      const isAccepted = accepted !== undefined;
      const key = `${isAccepted}\n${deviation.kind}\n${deviation.path.join("/")}\n${JSON.stringify(standardSays(deviation))}`;
      const group = this.#groups.get(key) ?? {
        key,
        of: factsOf(configuration, deviation),
        isAccepted,
        screens: [],
      };
      this.#groups.set(key, group);
      const actual = deviation.kind === "value" ? (deviation.actual ?? null) : null;
      const off = offBy(deviation);
      group.screens.push({
        name,
        actual,
        ...(off !== undefined && { off }),
        ...(since !== undefined && { since }),
        ...(accepted !== undefined && { accepted }),
      });
    }
  }

  /** Adds what others have gathered of other screens. */
  addGroups(others: readonly DriftGroup[]): void {
    for (const other of others) {
      const group = this.#groups.get(other.key);
      if (group === undefined) this.#groups.set(other.key, { ...other });
      else for (const screen of other.screens) group.screens.push(screen);
    }
  }

  groups(): readonly DriftGroup[] {
    return [...this.#groups.values()];
  }

  /** The most serious first, then those of most screens; without what stays by decision. */
  findings(): readonly DriftFinding[] {
    return this.#findings(false);
  }

  /** What stays by decision, in the same order. */
  accepted(): readonly DriftFinding[] {
    return this.#findings(true);
  }

  #findings(isAccepted: boolean): readonly DriftFinding[] {
    return [...this.#groups.values()]
      .filter((group) => group.isAccepted === isAccepted)
      .map(findingOf)
      .sort(
        (a, b) =>
          FINDING_KINDS.indexOf(a.kind) - FINDING_KINDS.indexOf(b.kind) ||
          b.screens.length - a.screens.length ||
          (a.place < b.place ? -1 : 1),
      );
  }
}

function factsOf(configuration: Configuration, deviation: Deviation): DriftGroup["of"] {
  const { path, field, owner, reason } = deviation;
  const kind = kindOf(deviation);
  return {
    code: codeOf(deviation),
    kind,
    severity: SEVERITY[kind],
    place: path.join("/"),
    field,
    ...deviationWords(configuration, deviation),
    owner,
    standard: standardSays(deviation),
    ...(reason !== undefined && { reason }),
  };
}

function findingOf({ of, screens: unordered }: DriftGroup): DriftFinding {
  const screens = unordered.toSorted((a, b) => naturalOrder(a.name, b.name));
  const offs = screens.flatMap(({ off }) => off ?? []);
  if (offs.length === 0) return { ...of, screens };
  const [least, greatest] = rangeOf(offs);
  return { ...of, screens, off: { least, median: median(offs), greatest } };
}

/** Least and greatest; by a loop, since tens of thousands are too many arguments for a call. */
function rangeOf(values: readonly number[]): readonly [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
  }
  return [least, greatest];
}

/** The most serious of what an item holds that the house owns: a preset more or less is a matter of operation. */
function kindOf({ kind, field }: Deviation): FindingKind {
  if (kind === "value") return fieldAt(field)?.kind ?? "record";
  const inside = fieldsUnder(field).map((leaf) => leaf.kind);
  return field === "presets"
    ? "operation"
    : (FINDING_KINDS.find((each) => inside.includes(each)) ?? "record");
}

function codeOf(deviation: Deviation): DriftCode {
  if (deviation.kind !== "value") return `standard/${deviation.kind}`;
  return deviation.rule.hold.kind === "within" ? "standard/outside-limits" : "standard/other-value";
}

function standardSays(deviation: Deviation): Json {
  if (deviation.kind === "missing-item") return deviation.item;
  if (deviation.kind === "extra-item") return null;
  const { hold } = deviation.rule;
  if (hold.kind === "within") return [hold.min, hold.max];
  return hold.kind === "exactly" ? hold.value : null;
}

/** How far a number lies from what is held: from the value, or from the nearer limit. */
function offBy(deviation: Deviation): number | undefined {
  if (deviation.kind !== "value" || typeof deviation.actual !== "number") return undefined;
  const { hold } = deviation.rule;
  const { value } = deviation.wanted;
  // A mark may be meant on another scale; off by so much it is on the unit's own.
  const isAsHeld = hold.kind === "exactly" && !isFaderMark(deviation.path);
  const wanted = isAsHeld ? hold.value : value;
  return typeof wanted === "number" ? Number((deviation.actual - wanted).toPrecision(12)) : undefined;
}
