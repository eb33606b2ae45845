import { canonicalHash } from "../../base/canonical/index.ts";
import type { Standard } from "../../model/index.ts";

/** Screens that follow a version that a round is probably not meant to change, by their names. */
export interface OddVersions {
  /** They follow a later version: the round takes back what came after it. */
  readonly later: readonly string[];
  /** They follow the same version with other lines: a standard that was applied was changed. */
  readonly changed: readonly string[];
}

/** @param screens with the version that each followed last */
export function oddVersions(
  standard: Standard,
  screens: readonly { readonly name: string; readonly followed: Standard | undefined }[],
): OddVersions {
  const own = canonicalHash(standard);
  const later: string[] = [];
  const changed: string[] = [];
  for (const { name, followed } of screens) {
    if (followed === undefined || followed.id !== standard.id) continue;
    const order = compareVersions(followed.version, standard.version);
    if (order > 0) later.push(name);
    else if (order === 0 && canonicalHash(followed) !== own) changed.push(name);
  }
  return { later, changed };
}

/** The order of two versions MAJOR.MINOR.PATCH (Semantic Versioning 2.0.0, clause 11). */
function compareVersions(a: string, b: string): number {
  const [left, right] = [a, b].map((version) => version.split(".").map(Number)) as [number[], number[]];
  for (const [index, number] of left.entries()) if (number !== right[index]) return number - right[index]!;
  return 0;
}
