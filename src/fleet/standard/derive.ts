import {
  type Json,
  keyMember,
  type Standard,
  type StandardClass,
  type StandardItem,
  type StandardLine,
} from "../../model/index.ts";
import type { Census, ListCensus, PlaceCensus, ValueCount } from "./census.ts";
import { isFaderMark } from "./fader-scale.ts";
import { median, modifiedZScores, OUTLIER_SCORE } from "./statistics.ts";

/** What a standard that is derived says of itself. */
export interface DeriveOptions {
  readonly id: string;
  readonly title: string;
  /** RFC 3339 full-date. */
  readonly issuedOn: string;
  readonly issuedBy: string;
  readonly screens: StandardClass;
  /** Share of the screens that has to have a value for it to be held, above 0.5. @defaultValue 0.9 */
  readonly share?: number;
}

/** Screens that do not have what nearly all have. */
export interface Outlier {
  readonly place: string;
  readonly field: string;
  /** What nearly all have: the value, or the limits. */
  readonly usual: Json;
  /** What the others have, the most frequent first. */
  readonly others: readonly {
    readonly value: Json | null;
    readonly count: number;
    readonly screens: readonly string[];
  }[];
}

/** A standard derived from screens, and who stands out among them. */
export interface Derived {
  readonly standard: Standard;
  readonly outliers: readonly Outlier[];
}

/** Numbers that are names: between two of them lies nothing. */
const NUMBERED: ReadonlySet<string> = new Set(["presets[].slot", "sources[].channels[].position"]);

/** Nearly all, unless said otherwise. */
const NEARLY_ALL = 0.9;

/**
 * Proposes a standard from what nearly all of many screens share at the places that the house owns. A value that nearly
 * all have is held exactly; numbers that lie close together are held within limits, outliers by the modified z-score left
 * out; the rest is left to the screen, with the reason in words. A person reads, changes and issues it.
 */
export function deriveStandard(census: Census, options: DeriveOptions): Derived {
  return new Derivation(census, options).result();
}

class Derivation {
  readonly #lines: StandardLine[] = [];
  readonly #outliers: Outlier[] = [];
  readonly #census: Census;
  readonly #options: DeriveOptions;
  readonly #share: number;
  readonly #places: readonly PlaceCensus[];
  readonly #lists: readonly ListCensus[];

  constructor(census: Census, options: DeriveOptions) {
    this.#census = census;
    this.#options = options;
    this.#share = options.share ?? NEARLY_ALL;
    this.#places = census.places();
    this.#lists = census.lists();
  }

  result(): Derived {
    for (const list of this.#lists.filter(({ path }) => path.length === 1)) this.#list(list);
    for (const place of this.#places.filter(({ field }) => !field.includes("[]"))) {
      const usual = this.#usual(place);
      if (usual !== undefined && usual.value !== undefined) {
        this.#lines.push({
          place: place.path.join("/"),
          hold: "exactly",
          value: usual.value as string | number | boolean,
        });
      }
    }
    const { id, title, issuedOn, issuedBy, screens } = this.#options;
    const percent = Math.round(this.#share * 100);
    return {
      standard: {
        kind: "boothkeep.standard",
        schemaVersion: "1.0.0",
        id,
        version: "0.1.0",
        title,
        issuedOn,
        issuedBy,
        reason: `Proposed from ${this.#census.screens} screens: what at least ${percent} % of them have.`,
        screens,
        lines: this.#lines,
      },
      outliers: this.#outliers,
    };
  }

  /** Holds a list with what its items have in common; gives the items so that a list around it can carry them. */
  #list(list: ListCensus): void {
    const place = list.path.join("/");
    const { hold, items } = this.#items(list);
    const at = this.#lines.length;
    const told = this.#withSlotsApart(
      list,
      items.map((key) => this.#item(list, key)),
    );
    this.#lines.splice(at, 0, { place, hold, items: told });
  }

  /** Of presets that most screens have in one slot, though no screen has both, the slot is left to the screen. */
  #withSlotsApart({ path, field }: ListCensus, items: readonly StandardItem[]): readonly StandardItem[] {
    if (field !== "presets") return items;
    return items.map((item) => {
      const { slot, ...rest } = item as { readonly id: string; readonly slot?: Json };
      const isShared = items.some((other) => other !== item && (other as { slot?: Json }).slot === slot);
      if (slot === undefined || !isShared) return item;
      const reason = `Other presets are in slot ${String(slot)} on other screens.`;
      this.#lines.push({ place: [...path, rest.id, "slot"].join("/"), hold: "left-to-screen", reason });
      return rest as StandardItem;
    });
  }

  #items({ path, field, screens, items, sets }: ListCensus): {
    readonly hold: "these-only" | "at-least";
    readonly items: readonly string[];
  } {
    const [set] = sets;
    const nearly = items.filter(({ count }) => count >= this.#share * screens);
    this.#tell(path, field, {
      usual: nearly.map(({ value }) => value as Json),
      sets: sets.filter((other) => !includesAll(other, nearly)),
    });
    if (set !== undefined && set.count >= this.#share * screens) {
      const wanted = set.value as readonly string[];
      const ordered = items.map(({ value }) => String(value)).filter((key) => wanted.includes(key));
      return { hold: "these-only", items: ordered };
    }
    return { hold: "at-least", items: nearly.map(({ value }) => String(value)) };
  }

  #tell(
    path: readonly string[],
    field: string,
    found: { readonly usual: Json; readonly sets: readonly ValueCount[] },
  ): void {
    if (found.sets.length === 0) return;
    this.#outliers.push({
      place: path.join("/"),
      field,
      usual: found.usual,
      others: found.sets.map(countOf),
    });
  }

  /** One item with every value that nearly all have; what else is to be said becomes lines of their own. */
  #item(list: ListCensus, key: string): StandardItem {
    const base = [...list.path, key];
    const item: Record<string, unknown> = { [keyMember(list.field)]: key };
    for (const place of this.#places) {
      const inner = place.path.slice(base.length);
      if (!startsWith(place.path, base) || place.field.slice(`${list.field}[].`.length).includes("[]"))
        continue;
      const usual = this.#usual(place);
      if (usual?.value !== undefined) writeInto(item, inner, usual.value);
    }
    for (const nested of this.#lists) {
      if (nested.path.length !== base.length + 1 || !startsWith(nested.path, base)) continue;
      const [set] = nested.sets;
      if (set !== undefined && set.count >= this.#share * nested.screens) {
        const { items } = this.#items(nested);
        item[nested.path.at(-1)!] = items.map((inner) => this.#item(nested, inner));
      } else this.#list(nested);
    }
    return item;
  }

  /** What nearly all have at a place; otherwise a line with limits, or one that leaves it to the screen. */
  #usual({ path, field, screens, values }: PlaceCensus): ValueCount | undefined {
    const [first, ...others] = values;
    if (first === undefined) return undefined;
    const place = path.join("/");
    if (first.count >= this.#share * screens) {
      if (others.length > 0)
        this.#outliers.push({ place, field, usual: first.value ?? null, others: others.map(countOf) });
      return first;
    }
    const areMarksOfSeveralScales = isFaderMark(path) && this.#census.profileIds.size > 1;
    const isQuantity = !NUMBERED.has(field) && !areMarksOfSeveralScales;
    const limits = isQuantity ? this.#limits(values, screens) : undefined;
    if (limits === undefined) {
      const share = Math.round((first.count / screens) * 100);
      const reason = areMarksOfSeveralScales
        ? "Marks of several fader scales say nothing together: give the standard a fader scale to hold levels."
        : `Screens differ: ${values.length} values, the most frequent one at ${share} % of ${screens}.`;
      this.#lines.push({ place, hold: "left-to-screen", reason });
      return undefined;
    }
    const { min, max, out } = limits;
    this.#lines.push({ place, hold: "within", min, max, reason: limits.reason });
    if (out.length > 0) this.#outliers.push({ place, field, usual: [min, max], others: out.map(countOf) });
    return undefined;
  }

  #limits(values: readonly ValueCount[], screens: number) {
    if (!values.every(({ value }) => typeof value === "number")) return undefined;
    const all = values.flatMap(({ value, count }) => new Array<number>(count).fill(value as number));
    const scores = new Map(modifiedZScores(all).map((score, index) => [all[index]!, Math.abs(score)]));
    const isOut = ({ value }: ValueCount) => scores.get(value as number)! > OUTLIER_SCORE;
    const inside = values.filter((item) => !isOut(item));
    const held = inside.reduce((sum, { count }) => sum + count, 0);
    if (held < this.#share * screens) return undefined;
    const numbers = inside.map(({ value }) => value as number);
    return {
      min: Math.min(...numbers),
      max: Math.max(...numbers),
      out: values.filter(isOut),
      reason: `Screens lie within these limits, half of them at or below ${median(all)}.`,
    };
  }
}

function countOf({ value, count, screens }: ValueCount) {
  return { value: value ?? null, count, screens };
}

function includesAll({ value }: ValueCount, items: readonly ValueCount[]): boolean {
  const keys = new Set(value as readonly string[]);
  return items.every((item) => keys.has(String(item.value)));
}

function startsWith(path: readonly string[], base: readonly string[]): boolean {
  return path.length > base.length && base.every((part, index) => path[index] === part);
}

function writeInto(item: Record<string, unknown>, path: readonly string[], value: Json): void {
  const [name, ...rest] = path;
  if (rest.length === 0) item[name!] = value;
  else {
    item[name!] ??= {};
    writeInto(item[name!] as Record<string, unknown>, rest, value);
  }
}
