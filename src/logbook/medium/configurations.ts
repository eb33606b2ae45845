import { type Sha256, sha256 } from "../../base/canonical/index.ts";
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
 * Gives configurations from what a screen keeps and from the references. Remembers what it put together and what it
 * came by, since the visits of a screen rest on each other.
 *
 * @param shelf where references are looked for; one that remembers them serves many screens
 */
export function configurationResolver(
  store: FileStore,
  kept: KeptConfigurations,
  shelf: ReferenceShelf = (prefix) => readFromStore(store, prefix),
): ResolveConfiguration {
  const known = new Map<Sha256, ResolvedConfiguration>();
  const passed = new Map<string, Start>();
  return (wanted) => {
    const already = known.get(wanted);
    if (already !== undefined) return already;
    // Two logbooks may have kept one configuration in two ways; when one leads astray, the other is tried.
    const refused = new Set<string>();
    for (;;) {
      const way = findWay({ kept, known, passed, shelf, refused }, wanted);
      if (way === undefined) return undefined;
      const found = follow(way, wanted);
      if (found !== undefined) {
        for (const [name, start] of found.passed) passed.set(name, start);
        known.set(wanted, found.resolved);
        return found.resolved;
      }
      // What was come by was right for what was wanted then; its own SHA-256 is only checked now.
      const wasPassed = passed.delete(way.startName);
      if (way.steps.length === 0 && !wasPassed) return undefined;
      if (!wasPassed) for (const { line } of way.steps) refused.add(line);
    }
  };
}

/** Gives a reference whose SHA-256 starts so; undefined where there is none. */
export type ReferenceShelf = (prefix: string) => ShelvedReference | undefined;

interface ShelvedReference {
  readonly text: string;
  readonly pieces: Pieces;
}

/** So many references are remembered; a logbook has a handful for each unit profile. */
const MOST_REMEMBERED = 32;

/** A shelf that reads each reference once. For a run over many screens: it does not see what is written meanwhile. */
export function referenceShelf(store: FileStore): ReferenceShelf {
  const remembered = new Map<string, ShelvedReference>();
  return (prefix) => {
    const found = remembered.get(prefix) ?? readFromStore(store, prefix);
    if (found !== undefined && remembered.size < MOST_REMEMBERED) remembered.set(prefix, found);
    return found;
  };
}

function readFromStore(store: FileStore, prefix: string): ShelvedReference | undefined {
  const text = findReference(store, prefix);
  return text === undefined ? undefined : { text, pieces: pieces(text) };
}

/** What a row of edits starts from. */
type Start = Pick<ResolvedConfiguration, "pieces" | "steps" | "reference">;

/** A row of edits that leads from something put together already to a configuration, the last edit first. */
interface Way {
  readonly steps: readonly Step[];
  readonly startName: string;
  readonly start: Start;
}

interface Step {
  readonly line: string;
  readonly edits: Edits;
  /** The first 16 digits of the SHA-256 of what comes out. */
  readonly leadsTo: string;
}

/** A configuration on the search, by its SHA-256 or the start of it. */
interface Node {
  readonly name: string;
  readonly steps: readonly Step[];
}

interface Search {
  readonly kept: KeptConfigurations;
  readonly known: ReadonlyMap<Sha256, ResolvedConfiguration>;
  /** By the first 16 digits of the SHA-256. */
  readonly passed: ReadonlyMap<string, Start>;
  readonly shelf: ReferenceShelf;
  readonly refused: ReadonlySet<string>;
}

/**
 * The shortest way to a configuration. A search and not a walk: after merging, each of two configurations may be kept
 * as edits to the other one, and besides as edits to something else.
 */
function findWay({ kept, known, passed, shelf, refused }: Search, wanted: Sha256): Way | undefined {
  const seen: Node[] = [{ name: wanted, steps: [] }];
  const names = new Set([nameOf(wanted)]);
  for (const { name, steps } of seen) {
    const start = byPrefix(known, name) ?? passed.get(nameOf(name)) ?? wholeStart(kept, name);
    if (start !== undefined) return { steps, startName: nameOf(name), start };
    for (const { kind, line } of byPrefix(kept.configurations, name) ?? []) {
      const edited = kind === "edited" && !refused.has(line) ? readEdits(line) : undefined;
      if (edited === undefined || names.has(nameOf(edited.base))) continue;
      names.add(nameOf(edited.base));
      seen.push({
        name: edited.base,
        steps: [...steps, { line, edits: edited.edits, leadsTo: nameOf(name) }],
      });
    }
  }
  // References on the medium last, and first those for which there is no other way.
  const isKept = ({ name }: Node) => byPrefix(kept.configurations, name) !== undefined;
  for (const { name, steps } of [...seen.filter((node) => !isKept(node)), ...seen.filter(isKept)]) {
    const reference = shelf(name);
    if (reference === undefined) continue;
    const start = { pieces: reference.pieces, steps: 0, reference: reference.text };
    return { steps, startName: nameOf(name), start };
  }
  return undefined;
}

function wholeStart({ configurations, references }: KeptConfigurations, name: string): Start | undefined {
  const own = byPrefix(configurations, name)?.find((item) => item.kind === "whole");
  if (own?.kind === "whole") return { pieces: pieces(own.text), steps: 0 };
  const copy = byPrefix(references, name);
  return copy?.kind === "whole" ? { pieces: pieces(copy.text), steps: 0, reference: copy.text } : undefined;
}

interface Followed {
  readonly resolved: ResolvedConfiguration;
  /** What was put together on the way, not checked by itself. */
  readonly passed: readonly (readonly [string, Start])[];
}

/** What the way leads to, if that is what is wanted. */
function follow({ steps, start }: Way, wanted: Sha256): Followed | undefined {
  const { reference } = start;
  const rest = reference === undefined ? {} : { reference };
  const passed: [string, Start][] = [];
  let at: Start = start;
  for (const { edits, leadsTo } of steps.toReversed()) {
    const next = applyEdits(at.pieces, edits);
    if (next === undefined) return undefined;
    at = { pieces: next, steps: at.steps + 1, ...rest };
    passed.push([leadsTo, at]);
  }
  const text = at.pieces.join("");
  if (sha256(text) !== wanted) return undefined;
  return { resolved: { text, ...at, ...rest }, passed: passed.slice(0, -1) };
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
