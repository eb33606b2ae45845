import { BoothkeepError } from "../../../base/errors/index.ts";
import { type Configuration, fieldAt, itemKey, type KeyedItem, LIST_KEYS } from "../../../model/index.ts";
import { exportPlaceWords } from "../account.ts";
import type { InterpretedExport } from "../read-export.ts";
import { pointerPart } from "../tree.ts";

/** Something that the export written does not hold as the configuration has it. */
export interface LeftField {
  /** JSON Pointer in the configuration; for `item-kept` that of the list. */
  readonly pointer: string;
  /**
   * `outside`: no place of the export is for it. `rounded`: the export holds another number. `no-room`: it cannot be
   * written. `item-missing`: an item that could not be added. `item-kept`: an item that could not be taken away.
   */
  readonly reason: "outside" | "rounded" | "no-room" | "item-missing" | "item-kept";
  /** The value, or the key of an item. */
  readonly wanted: unknown;
  /** What the export written holds, or the key of the item that it keeps; absent if it has nothing. */
  readonly held?: unknown;
}

/** Everything that an export does not hold as wanted. Items are matched by their keys: order means nothing. */
export function leftOf(configuration: Configuration, written: InterpretedExport): readonly LeftField[] {
  const { $schema: _schema, kind: _kind, schemaVersion: _version, ...wanted } = configuration;
  const comparison = new Comparison(written);
  comparison.values(wanted, written.whole, { wanted: "", held: "", path: "" });
  return comparison.left;
}

/** One place in both documents. */
interface Place {
  /** JSON Pointers. */
  readonly wanted: string;
  readonly held: string;
  /** "outputs[].filters". */
  readonly path: string;
}

type Members = Readonly<Record<string, unknown>>;

class Comparison {
  readonly left: LeftField[] = [];
  readonly #written: InterpretedExport;

  constructor(written: InterpretedExport) {
    this.#written = written;
  }

  values(want: unknown, have: unknown, place: Place): void {
    if (want === have) return;
    const key = LIST_KEYS[place.path];
    if (Array.isArray(want) && Array.isArray(have) && (key === "id" || key === "channelId")) {
      this.#items(want as readonly KeyedItem[], have as readonly KeyedItem[], place);
    } else if (isObject(want) || isObject(have)) {
      const [a, b] = [isObject(want) ? want : {}, isObject(have) ? have : {}] as readonly [Members, Members];
      const names = new Set([...Object.keys(a), ...Object.keys(b)]);
      if (names.size === 0 && (want === undefined || have === undefined)) this.#tell(want, have, place);
      const isList = Array.isArray(want) || Array.isArray(have);
      for (const name of names) this.values(a[name], b[name], memberOf(place, name, isList));
    } else this.#tell(want, have, place);
  }

  #items(want: readonly KeyedItem[], have: readonly KeyedItem[], place: Place): void {
    const held = new Map(have.map((item, i) => [itemKey(item), i]));
    for (const [i, item] of want.entries()) {
      const key = itemKey(item);
      const at = held.get(key);
      const pointer = `${place.wanted}/${i}`;
      if (at === undefined) this.left.push({ pointer, reason: "item-missing", wanted: key });
      else {
        const inner = { wanted: pointer, held: `${place.held}/${at}`, path: `${place.path}[]` };
        this.values(item, have[at], inner);
      }
    }
    const wanted = new Set(want.map(itemKey));
    for (const item of have) {
      const key = itemKey(item);
      if (!wanted.has(key))
        this.left.push({ pointer: place.wanted, reason: "item-kept", wanted: null, held: key });
    }
  }

  #tell(want: unknown, have: unknown, { wanted: pointer, held }: Place): void {
    const outside = this.#written.interpretation.origins.get(held)?.kind === "map";
    const rounded = typeof want === "number" && typeof have === "number";
    const reason = outside ? "outside" : rounded ? "rounded" : "no-room";
    this.left.push({ pointer, reason, wanted: want ?? null, ...(have === undefined ? {} : { held: have }) });
  }
}

function memberOf({ wanted, held, path }: Place, name: string, isList: boolean): Place {
  const part = pointerPart(name);
  const inner = isList ? `${path}[]` : path === "" ? name : `${path}.${name}`;
  return { wanted: wanted + part, held: held + part, path: inner };
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

const TOLD = 3;

/** The refusal of what an export cannot hold, with what to do by hand. */
export function cannotHold(losses: readonly LeftField[]): BoothkeepError {
  const told = losses.slice(0, TOLD).map(lossWords);
  const more = losses.length > TOLD ? ` (and ${losses.length - TOLD} more)` : "";
  const items = losses.some(({ reason }) => reason === "item-missing" || reason === "item-kept");
  return new BoothkeepError(
    "export.cannot-hold",
    `The export cannot hold the configuration as it is. ${told.join(" ")}${more}`,
    {
      place: { pointer: losses[0]!.pointer },
      next: items
        ? "Nothing was written. Add or take away these items in the unit itself, export it again, and write into that export."
        : "Nothing was written. Change these values, or accept the losses.",
      data: { left: losses },
    },
  );
}

function lossWords({ pointer, reason, wanted, held }: LeftField): string {
  if (reason === "item-missing") return `${pointer}: the export has no place for '${String(wanted)}'.`;
  if (reason === "item-kept") return `${pointer}: '${String(held)}' cannot be taken out of the export.`;
  const path = pointer.slice(1).replace(/\/\d+/g, "[]").replaceAll("/", ".");
  const name = fieldAt(path)?.label ?? exportPlaceWords(pointer);
  const at = `${pointer} (${name})`;
  if (held === undefined) return `${at}: the export has no place for ${JSON.stringify(wanted)}.`;
  if (wanted === null) return `${at}: the export has ${JSON.stringify(held)}, and no way to leave it out.`;
  const rounds = reason === "rounded" ? "rounds: it " : "";
  return `${at}: ${JSON.stringify(wanted)} is wanted, the export ${rounds}has ${JSON.stringify(held)}.`;
}
