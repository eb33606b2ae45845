import { LIST_KEYS, type RowMatch } from "../../../model/index.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { type FieldMatch, matchFields, type PlacesOf } from "./match-fields.ts";
import { type KeyGuess, keyOf } from "./match-key.ts";
import { type NumbersMatch, numberListOf } from "./match-numbers.ts";
import { type ListShape, listsIn, type Shape, scalarsIn, singlesIn } from "./shape.ts";
import { likeness, meaningOf, meaningOfField } from "./vocabulary.ts";

/** A list of the export that may be one of the configuration. */
export interface ListMatch {
  /** List of the configuration from the item around it on, and from the root. */
  readonly list: string;
  readonly path: string;
  /** Where it stands: from the item around it on, or from the root. */
  readonly at: string;
  readonly where: readonly RowMatch[];
  readonly shape: ListShape;
  readonly key: KeyGuess;
  readonly fields: readonly FieldMatch[];
  readonly numbers: readonly NumbersMatch[];
  readonly lists: readonly ListMatch[];
  readonly score: number;
}

/** Keys of lists by their paths, as far as they are known. */
export type KnownKeys = ReadonlyMap<string, ReadonlySet<string>>;

/** Below this a list is left to a person. */
const LEAST_SCORE = 0.6;

/** One thing alone is a list only where its name says just that, or much speaks for it. */
const LEAST_OF_ONE = 1;

/** A field that is not just a guess speaks for its list too. */
const SURE_SCORE = 0.7;

/** At least three names, all of them labels of program channels. */
function areChannelLabels(names: ReadonlySet<string>): boolean {
  return names.size >= 3 && [...names].every((name) => FIELD_WORDS["channels[].label"]!.includes(name));
}

interface Candidate {
  readonly at: string;
  readonly shape: ListShape;
  readonly where: readonly RowMatch[];
}

interface Around {
  readonly match: { readonly key: KeyGuess; readonly shape: ListShape };
  readonly keyField: string;
}

/** Matches lists, those inside others too; also rows of other tables that name the item to which they belong. */
export class ListMatcher {
  readonly #keys: KnownKeys;
  /** Lists of the whole export, for rows that belong to items elsewhere. */
  readonly #tables: readonly (readonly [string, ListShape])[];
  /** Places of one thing with a name: lists only where their names say so. */
  readonly #singles: readonly Candidate[];
  readonly #taken = new Set<ListShape>();

  constructor(root: Shape, keys: KnownKeys) {
    this.#keys = keys;
    this.#tables = listsIn(root);
    this.#singles = singlesIn(root).map(([at, shape]) => ({ at, shape, where: [] }));
  }

  isTaken(shape: ListShape): boolean {
    return this.#taken.has(shape);
  }

  lists(prefix: string, shape: Shape, around: readonly Around[] = []): readonly ListMatch[] {
    const own = listsIn(shape).map(([at, list]) => ({ at, shape: list, where: [] as readonly RowMatch[] }));
    const rows = around.length === 0 ? this.#singles : this.#rowsOf(around);
    const targets = targetsOf(prefix);
    // What an item can have one list of, and has one: that is most likely it.
    const isOnly = around.length > 0 && own.length === 1 && targets.length === 1;
    const pairs = targets.flatMap((list) =>
      [...own, ...rows].flatMap((candidate) => this.#pair(prefix, list, candidate, isOnly) ?? []),
    );
    const taken = new Set<string>();
    const chosen = [...pairs]
      .sort((a, b) => b.score - a.score)
      .filter((pair) => {
        if (this.#taken.has(pair.shape) || taken.has(pair.list)) return false;
        this.#taken.add(pair.shape);
        taken.add(pair.list);
        return true;
      });
    return chosen.map((match) => this.#withInner(match, around));
  }

  #pair(
    prefix: string,
    list: string,
    {
      at,
      shape,
      where,
    }: { readonly at: string; readonly shape: ListShape; readonly where: readonly RowMatch[] },
    isOnly: boolean,
  ): ListMatch | undefined {
    if (shape.item.kind === "scalar" || this.#taken.has(shape)) return undefined;
    const path = `${prefix}${list}`;
    const matched = new Set(where.map((match) => match.at));
    const places: PlacesOf = scalarsIn(shape.item).filter(([place]) => !matched.has(place));
    const fields = matchFields(`${path}[].`, places, this.#keys);
    const keyField = LIST_KEYS[path] as string;
    const key = keyOf({ keyField, path, shape, places, fields, where });
    if (key === undefined) return undefined;
    const name = likeness(meaningOfField(list), meaningOf(at));
    const share = fields.reduce((sum, { score }) => sum + Math.min(score, 1), 0) / Math.max(3, places.length);
    const inner = innerNames(path, shape.item);
    // What was measured must show: channels by their names stand in many lists.
    if (path.startsWith("calibration.") && fields.length === 0 && listsIn(shape.item).length === 0)
      return undefined;
    const channels = this.#keys.get("channels");
    const isOfChannels =
      keyField === "channelId" && [...key.values].every((one) => channels?.has(one) === true);
    const isChannels = path === "channels" && areChannelLabels(key.values);
    const sure = fields.filter((match) => match.score > SURE_SCORE).length;
    const score =
      name +
      (isOfChannels ? (prefix === "" ? 0.4 : 0.6) : 0) +
      (isChannels ? 0.6 : 0) +
      share * 0.7 +
      Math.min(sure * 0.05, 0.4) +
      inner * 0.3 +
      (isOnly ? 0.2 : 0) +
      (where.length > 0 ? 0.3 : 0);
    // One row may be a table of its own, with single settings.
    const least = at === "" ? LEAST_SCORE / 2 : shape.items.length === 1 ? LEAST_OF_ONE : LEAST_SCORE;
    if (score < least || (fields.length === 0 && name < 0.5 && !(isOfChannels && prefix !== "")))
      return undefined;
    return { list, path, at, where, shape, key, fields, numbers: [], lists: [], score };
  }

  #withInner(match: ListMatch, around: readonly Around[]): ListMatch {
    const { path, shape, fields, key } = match;
    const keyField = LIST_KEYS[path] as string;
    const used = new Set(fields.map(({ at }) => at));
    const numbers = numberListOf(`${path}[].`, shape.item, used);
    const inner = [...around, { match: { key, shape }, keyField }];
    return { ...match, numbers, lists: this.lists(`${path}[].`, shape.item, inner) };
  }

  /** Tables with a column for each of the items around, whose values are their keys. */
  #rowsOf(around: readonly Around[]) {
    return this.#tables.flatMap(([at, shape]) => {
      if (this.#taken.has(shape) || shape.by !== "place") return [];
      const columns = scalarsIn(shape.item);
      const where: RowMatch[] = [];
      for (const [i, { match, keyField }] of around.entries()) {
        const column = columns.find(
          ([place, { leaves }]) =>
            !where.some((known) => known.at === place) &&
            leaves.length > 0 &&
            leaves.every(({ raw }) => match.key.values.has(raw)) &&
            !/^\/@?(?:id|label|name)$/.test(place),
        );
        if (column === undefined) return [];
        const ancestor = around.length - i;
        where.push({ at: column[0], ...(ancestor === 1 ? {} : { ancestor }), field: keyField });
      }
      return [{ at, shape, where }];
    });
  }
}

/** Lists of an item of the configuration, by their names from there on. */
function targetsOf(prefix: string): readonly string[] {
  return Object.entries(LIST_KEYS)
    .filter(([path, key]) => path.startsWith(prefix) && (key === "id" || key === "channelId"))
    .map(([path]) => path.slice(prefix.length))
    .filter((rest) => !rest.includes("[]"));
}

/** How well the lists inside an item go with those that there should be. */
function innerNames(path: string, item: Shape): number {
  const targets = targetsOf(`${path}[].`);
  const own = listsIn(item);
  if (targets.length === 0 || own.length === 0) return 0;
  const best = own.map(([at]) =>
    Math.max(...targets.map((list) => likeness(meaningOfField(list), meaningOf(at)))),
  );
  return Math.max(...best);
}

/** A place as a query (RFC 9535) for the items of a list. */
export function queryFor(at: string, shape: ListShape): string {
  const names = at.split("/").slice(1);
  const path = names.map((name) => {
    const plain = name.replaceAll("~1", "/").replaceAll("~0", "~");
    return /^[A-Za-z_]\w*$/.test(plain) ? `.${plain}` : `['${plain.replace(/['\\]/g, "\\$&")}']`;
  });
  return `$${path.join("")}${shape.by === "place" ? "[*]" : ".*"}`;
}
