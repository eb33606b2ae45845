import { type Sha256, sha256 } from "../canonical/index.ts";
import { applyEdits } from "./edits.ts";
import type { FileStore } from "./file-store.ts";
import type { KeptConfiguration } from "./records.ts";
import { findReference } from "./references.ts";

/** A configuration put together again; its SHA-256 was checked. */
export interface ResolvedConfiguration {
  readonly text: string;
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

/**
 * Gives configurations from what a screen keeps and from the references. Remembers what it put together, since the
 * visits of a screen rest on each other.
 */
export function configurationResolver(
  store: FileStore,
  { configurations, references }: KeptConfigurations,
): ResolveConfiguration {
  const known = new Map<string, ResolvedConfiguration | undefined>();
  const resolve = (wanted: string, depth: number): ResolvedConfiguration | undefined => {
    if (depth > STEP_LIMIT) return undefined;
    if (!known.has(wanted)) known.set(wanted, putTogether(wanted, depth));
    return known.get(wanted);
  };
  const putTogether = (wanted: string, depth: number): ResolvedConfiguration | undefined => {
    const item = byPrefix(configurations, wanted) ?? byPrefix(references, wanted);
    if (item?.kind !== "edited") {
      const text = item?.text ?? findReference(store, wanted);
      return text === undefined ? undefined : { text, steps: 0 };
    }
    const base = resolve(item.base, depth + 1);
    const text = base === undefined ? undefined : applyEdits(base.text, item.edits);
    if (base === undefined || text === undefined || sha256(text) !== item.sha256) return undefined;
    return { text, steps: base.steps + 1 };
  };
  return (wanted) => resolve(wanted, 0);
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
