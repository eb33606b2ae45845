import { BoothkeepError } from "../../base/errors/index.ts";
import type { PathExpression } from "./path-expression.ts";
import type { TreeValue } from "./tree.ts";

/**
 * So many places of an export the queries of a map may look at in one reading. The largest sample needs 100,000; at the
 * limit a reading takes seconds and some hundred MiB.
 */
export const MOST_LOOKS = 3_000_000;

/** Counts, ahead of each query, the places that it can look at. */
export class PlaceCount {
  readonly #sizes = new WeakMap<object, Size>();
  #looks = 0;

  /** What a query finds in a value, when there is still room for looking. @throws BoothkeepError field-map.unusable */
  nodes({ query, looks }: PathExpression, value: TreeValue & object) {
    this.#looks += looks === undefined ? query.segments.length : looks * this.#sizeOf(value).looks;
    if (this.#looks > MOST_LOOKS) {
      throw new BoothkeepError(
        "field-map.unusable",
        `The queries of the map would look at more than ${MOST_LOOKS} places of this export.`,
        {
          next: "Name lists by their own path instead of looking everywhere, and check that the export is of one unit.",
          data: { mostLooks: MOST_LOOKS },
        },
      );
    }
    return query.query(value).nodes;
  }

  /** A tree is no deeper than its reader lets it be. */
  #sizeOf(value: TreeValue): Size {
    if (typeof value !== "object" || value === null) return ONE;
    const known = this.#sizes.get(value);
    if (known !== undefined) return known;
    let [values, looks] = [1, 1];
    for (const child of Array.isArray(value) ? value : Object.values(value)) {
      const size = this.#sizeOf(child);
      values += size.values;
      looks += size.looks + size.values;
    }
    const size = { values, looks };
    this.#sizes.set(value, size);
    return size;
  }
}

interface Size {
  /** Values in a value, itself included. */
  readonly values: number;
  /** The same, each as many times as its place is steps away: so long is what is kept of it. */
  readonly looks: number;
}

const ONE: Size = { values: 1, looks: 1 };
