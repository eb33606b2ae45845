import { canonicalHash } from "../../src/base/canonical/index.ts";
import type { Standard } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { wrap } from "../wrap.ts";

/** Watches which versions screens follow, and says what is probably not meant. */
export class FollowedVersions {
  readonly #later: string[] = [];
  readonly #other: string[] = [];
  readonly #standard: Standard;

  constructor(standard: Standard) {
    this.#standard = standard;
  }

  add(name: string, followed: Standard | undefined): void {
    if (followed === undefined || followed.id !== this.#standard.id) return;
    const order = compareVersions(followed.version, this.#standard.version);
    if (order > 0) this.#later.push(name);
    else if (order === 0 && canonicalHash(followed) !== canonicalHash(this.#standard)) this.#other.push(name);
  }

  say(context: Context): void {
    const { id, version } = this.#standard;
    const say = (words: string) => context.err(wrap(`boothkeep: ${words}`, context.columns));
    if (this.#later.length > 0)
      say(
        `${named(this.#later)} a later version than ${id} ${version}: this round takes back what came after it.`,
      );
    if (this.#other.length > 0)
      say(
        `${named(this.#other)} ${id} ${version} with other lines: a standard that was applied and is changed needs a new version.`,
      );
  }
}

function named(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  const list = names.slice(0, MOST_NAMED).join(", ") + (more > 0 ? ` and ${more} more` : "");
  return `${list} ${names.length === 1 ? "follows" : "follow"}`;
}

const MOST_NAMED = 4;

/** The order of two versions MAJOR.MINOR.PATCH (Semantic Versioning 2.0.0, clause 11). */
function compareVersions(a: string, b: string): number {
  const [left, right] = [a, b].map((version) => version.split(".").map(Number)) as [number[], number[]];
  for (const [index, number] of left.entries()) if (number !== right[index]) return number - right[index]!;
  return 0;
}
