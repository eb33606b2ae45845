import { type Sha256, sha256 } from "../canonical/index.ts";
import { applyEdits, type Pieces, pieces } from "./edits.ts";
import type { FileStore } from "./file-store.ts";
import { type KeptConfiguration, readEdits } from "./records.ts";
import { findReference } from "./references.ts";

/** A configuration put together again; its SHA-256 was checked. */
export interface ResolvedConfiguration {
  readonly text: string;
  readonly pieces: Pieces;
  /** How many edits had to be applied. */
  readonly steps: number;
}

/** Puts configurations together; undefined when something on the way is missing or damaged. */
export type ResolveConfiguration = (wanted: Sha256) => ResolvedConfiguration | undefined;

/** No writer makes a longer row of edits (see MAX_STEPS in `keeping.ts`); a longer one is damage or mischief. */
const STEP_LIMIT = 256;

/** What a screen keeps of configurations; see ScreenRecords. */
export interface KeptConfigurations {
  readonly configurations: ReadonlyMap<Sha256, KeptConfiguration>;
  readonly references: ReadonlyMap<Sha256, KeptConfiguration>;
}

/** What an edit may start from; only what is asked for is checked in the end. */
type Unchecked = Omit<ResolvedConfiguration, "text">;

/**
 * Gives configurations from what a screen keeps and from the references. Remembers what it put together, since the
 * visits of a screen rest on each other.
 */
export function configurationResolver(
  store: FileStore,
  { configurations, references }: KeptConfigurations,
): ResolveConfiguration {
  const known = new Map<string, Unchecked | undefined>();
  const unchecked = (wanted: string, depth: number): Unchecked | undefined => {
    if (depth > STEP_LIMIT) return undefined;
    if (!known.has(wanted)) known.set(wanted, putTogether(wanted, depth));
    return known.get(wanted);
  };
  const putTogether = (wanted: string, depth: number): Unchecked | undefined => {
    const item = byPrefix(configurations, wanted) ?? byPrefix(references, wanted);
    if (item?.kind !== "edited") {
      const text = item?.text ?? findReference(store, wanted);
      return text === undefined ? undefined : { pieces: pieces(text), steps: 0 };
    }
    const edited = readEdits(item.line);
    const base = edited === undefined ? undefined : unchecked(edited.base, depth + 1);
    const result = base === undefined ? undefined : applyEdits(base.pieces, edited!.edits);
    return result === undefined ? undefined : { pieces: result, steps: base!.steps + 1 };
  };
  return (wanted) => {
    const found = unchecked(wanted, 0);
    const text = found?.pieces.join("");
    return found === undefined || text === undefined || sha256(text) !== wanted
      ? undefined
      : { ...found, text };
  };
}

function byPrefix(
  kept: ReadonlyMap<Sha256, KeptConfiguration>,
  prefix: string,
): KeptConfiguration | undefined {
  const exact = kept.get(prefix);
  if (exact !== undefined) return exact;
  for (const [id, item] of kept) if (id.startsWith(prefix)) return item;
  return undefined;
}
