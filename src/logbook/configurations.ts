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

type EditedConfiguration = Extract<KeptConfiguration, { kind: "edited" }>;

/** No writer makes a longer row of edits (see MAX_STEPS in `keeping.ts`); a longer one is damage or mischief. */
const STEP_LIMIT = 256;

/**
 * Puts a configuration together from what a screen keeps and from the references.
 * @returns undefined when something on the way is missing or damaged
 */
export function resolveConfiguration(
  store: FileStore,
  kept: ReadonlyMap<Sha256, KeptConfiguration>,
  wanted: Sha256,
): ResolvedConfiguration | undefined {
  const row: EditedConfiguration[] = [];
  let item = byPrefix(kept, wanted);
  let base: string = wanted;
  while (item?.kind === "edited") {
    if (row.length === STEP_LIMIT) return undefined;
    row.push(item);
    base = item.base;
    item = byPrefix(kept, base);
  }
  let text = item === undefined ? findReference(store, base) : item.text;
  for (const { edits, sha256: expected } of row.reverse()) {
    text = text === undefined ? undefined : applyEdits(text, edits);
    if (text === undefined || sha256(text) !== expected) return undefined;
  }
  return text !== undefined && sha256(text) === wanted ? { text, steps: row.length } : undefined;
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
