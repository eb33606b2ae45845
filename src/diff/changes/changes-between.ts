import { isDeepStrictEqual } from "node:util";
import {
  asJson,
  CONFIGURATION_SHAPE,
  type Configuration,
  type Json,
  type JsonObject,
} from "../../model/index.ts";
import type { ChangeSet } from "./change-set.ts";
import { checkComparable } from "./identity.ts";
import { listOrders } from "./list-orders.ts";
import { rawChanges } from "./raw-changes.ts";
import { renamesBetween } from "./renames.ts";
import { renamed } from "./renaming.ts";

/** How items of lists are recognized. */
export interface ChangesOptions {
  /**
   * `found`: items that only have another key, and outputs that feed the same way, are taken for the same thing.
   * `literal`: only equal keys make the same thing. @defaultValue "found"
   */
  readonly identity?: "found" | "literal";
}

/**
 * All that differs between two configurations, by identity: an item that stands elsewhere in its list is no change.
 *
 * @throws BoothkeepError `changes.unclear-identity` when an item of a list that differs has no key, or shares it;
 *   `document.invalid` when a member is no part of a configuration.
 * @example
 * changesBetween(asLeft, asFound).changes; // [{ kind: "changed", path: ["outputs", "out-3", "gainDb"], ... }]
 */
export function changesBetween(
  before: Configuration,
  after: Configuration,
  { identity = "found" }: ChangesOptions = {},
): ChangeSet {
  const left = asJson(before);
  const right = asJson(after);
  const differing = namesThatDiffer(left, right);
  if (differing.length === 0) return { renames: [], changes: [], orders: [] };
  for (const name of differing) {
    for (const document of [left, right]) {
      if (document[name] !== undefined) checkMember(document, name);
    }
  }
  const renames = identity === "found" ? renamesBetween(left, right) : [];
  const aligned = renamed(left, renames, "forward");
  return {
    renames,
    changes: rawChanges(aligned, right),
    orders: listOrders(aligned, right, CONFIGURATION_SHAPE, []),
  };
}

function namesThatDiffer(left: JsonObject, right: JsonObject): readonly string[] {
  const names = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...names].filter((name) => !isDeepStrictEqual(left[name], right[name]));
}

function checkMember(document: JsonObject, name: string): void {
  checkComparable({ [name]: document[name] as Json }, CONFIGURATION_SHAPE, []);
}
