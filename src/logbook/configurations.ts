import { type Sha256, sha256 } from "../canonical/index.ts";
import { applyEdits, type Edits, type Pieces, pieces } from "./edits.ts";
import type { FileStore } from "./file-store.ts";
import { type KeptConfiguration, readEdits } from "./records.ts";
import { findReference } from "./references.ts";

/** A configuration put together again; its SHA-256 was checked. */
export interface ResolvedConfiguration {
  readonly text: string;
  readonly pieces: Pieces;
  /** How many edits had to be applied. */
  readonly steps: number;
  /** Text of the reference that it rests on, where it rests on one. */
  readonly reference?: string;
}

/** Puts configurations together; undefined when something on the way is missing or damaged. */
export type ResolveConfiguration = (wanted: Sha256) => ResolvedConfiguration | undefined;

/** What a screen keeps of configurations; see ScreenRecords. */
export interface KeptConfigurations {
  readonly configurations: ReadonlyMap<Sha256, readonly KeptConfiguration[]>;
  readonly references: ReadonlyMap<Sha256, KeptConfiguration>;
}

/**
 * Gives configurations from what a screen keeps and from the references. Remembers what it put together, since the
 * visits of a screen rest on each other.
 */
export function configurationResolver(store: FileStore, kept: KeptConfigurations): ResolveConfiguration {
  const known = new Map<Sha256, ResolvedConfiguration>();
  return (wanted) => {
    const already = known.get(wanted);
    if (already !== undefined) return already;
    // Two logbooks may have kept one configuration in two ways; when one leads astray, the other is tried.
    const refused = new Set<string>();
    for (;;) {
      const way = findWay(store, kept, known, wanted, refused);
      if (way === undefined) return undefined;
      const found = follow(way, wanted);
      if (found !== undefined) {
        known.set(wanted, found);
        return found;
      }
      if (way.steps.length === 0) return undefined;
      for (const { line } of way.steps) refused.add(line);
    }
  };
}

/** A row of edits that leads from something whole to a configuration, the last edit first. */
interface Way {
  readonly steps: readonly Step[];
  readonly start: Pick<ResolvedConfiguration, "pieces" | "steps" | "reference">;
}

interface Step {
  readonly line: string;
  readonly edits: Edits;
}

/** A configuration on the search, by its SHA-256 or the start of it. */
interface Node {
  readonly name: string;
  readonly steps: readonly Step[];
}

/**
 * The shortest way to a configuration. A search and not a walk: after merging, each of two configurations may be kept
 * as edits to the other one, and besides as edits to something else.
 */
function findWay(
  store: FileStore,
  kept: KeptConfigurations,
  known: ReadonlyMap<Sha256, ResolvedConfiguration>,
  wanted: Sha256,
  refused: ReadonlySet<string>,
): Way | undefined {
  const seen: Node[] = [{ name: wanted, steps: [] }];
  const names = new Set([nameOf(wanted)]);
  for (const { name, steps } of seen) {
    const start = byPrefix(known, name) ?? wholeStart(kept, name);
    if (start !== undefined) return { steps, start };
    for (const { kind, line } of byPrefix(kept.configurations, name) ?? []) {
      const edited = kind === "edited" && !refused.has(line) ? readEdits(line) : undefined;
      if (edited === undefined || names.has(nameOf(edited.base))) continue;
      names.add(nameOf(edited.base));
      seen.push({ name: edited.base, steps: [...steps, { line, edits: edited.edits }] });
    }
  }
  // References on the medium last, and first those for which there is no other way.
  const isKept = ({ name }: Node) => byPrefix(kept.configurations, name) !== undefined;
  for (const { name, steps } of [...seen.filter((node) => !isKept(node)), ...seen.filter(isKept)]) {
    const reference = findReference(store, name);
    if (reference !== undefined) return { steps, start: { pieces: pieces(reference), steps: 0, reference } };
  }
  return undefined;
}

function wholeStart(
  { configurations, references }: KeptConfigurations,
  name: string,
): Way["start"] | undefined {
  const own = byPrefix(configurations, name)?.find((item) => item.kind === "whole");
  if (own?.kind === "whole") return { pieces: pieces(own.text), steps: 0 };
  const copy = byPrefix(references, name);
  return copy?.kind === "whole" ? { pieces: pieces(copy.text), steps: 0, reference: copy.text } : undefined;
}

/** What the way leads to, if that is what is wanted. */
function follow({ steps, start }: Way, wanted: Sha256): ResolvedConfiguration | undefined {
  let result: Pieces | undefined = start.pieces;
  for (const { edits } of steps.toReversed())
    result = result === undefined ? undefined : applyEdits(result, edits);
  const text = result?.join("");
  if (result === undefined || text === undefined || sha256(text) !== wanted) return undefined;
  const { reference } = start;
  return {
    text,
    pieces: result,
    steps: start.steps + steps.length,
    ...(reference === undefined ? {} : { reference }),
  };
}

/** Bases are named by the first 16 digits. */
function nameOf(name: string): string {
  return name.slice(0, 16);
}

function byPrefix<T>(map: ReadonlyMap<Sha256, T>, prefix: string): T | undefined {
  const exact = map.get(prefix);
  if (exact !== undefined) return exact;
  for (const [id, item] of map) if (id.startsWith(prefix)) return item;
  return undefined;
}
