import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import { configurationResolver, type ResolveConfiguration } from "../medium/configurations.ts";
import { editsBetween, type Pieces, pieces } from "../medium/edits.ts";
import type { FileStore } from "../medium/file-store.ts";
import { editedLine, wholeLine } from "../medium/records.ts";
import {
  commonText,
  keepReference,
  type Reference,
  readReferences,
  wantsSample,
} from "../medium/references.ts";
import type { ScreenRecords } from "../medium/screen-records.ts";

/**
 * A configuration is never more edits away from a whole one: bounds the time to read it and what damage can reach.
 * Twelve are six years of half-yearly visits.
 */
const MAX_STEPS = 12;

/** Edits to the visit before are good when they are below this share of the whole text; else references are tried. */
const GOOD_SHARE = 0.1;
/** Edits above this share of the whole text are not worth their dependence. */
const WORTHWHILE_SHARE = 0.5;

/**
 * The line that keeps a configuration in the file of its entry, or undefined when it is kept already (an earlier
 * entry of the screen, a reference). May write references first, so that the line's base is there before the line.
 */
export function lineToKeep(
  store: FileStore,
  records: ScreenRecords,
  profileId: string,
  text: string,
  latest: Sha256 | undefined,
): string | undefined {
  const wanted = sha256(text);
  const resolve = configurationResolver(store, records);
  if (resolve(wanted) !== undefined) return undefined;
  const next = pieces(text);
  const fromLatest = latest === undefined ? undefined : editsFrom(resolve, latest, next, wanted);
  if (fromLatest !== undefined && fromLatest.length < text.length * GOOD_SHARE) return fromLatest;

  let references = readReferences(store, profileId);
  if (latest === undefined && wantsSample(references)) {
    references = [...references, keepReference(store, profileId, "sample", text)];
    keepCommon(store, profileId, references);
    return undefined;
  }
  const common = references.find((reference) => reference.role !== "sample");
  const candidates = (common === undefined ? references : [common]).map((reference) =>
    editedLine(wanted, reference.sha256, editsBetween(pieces(reference.text), next)),
  );
  if (fromLatest !== undefined) candidates.push(fromLatest);
  const best = candidates.sort((a, b) => a.length - b.length)[0];
  return best !== undefined && best.length < text.length * WORTHWHILE_SHARE ? best : wholeLine(text);
}

function editsFrom(
  resolve: ResolveConfiguration,
  base: Sha256,
  next: Pieces,
  wanted: Sha256,
): string | undefined {
  const resolved = resolve(base);
  if (resolved === undefined || resolved.steps >= MAX_STEPS) return undefined;
  return editedLine(wanted, base, editsBetween(resolved.pieces, next));
}

function keepCommon(store: FileStore, profileId: string, references: readonly Reference[]): void {
  const text = commonText(references);
  if (text === undefined) return;
  keepReference(store, profileId, "common", text);
  keepReference(store, profileId, "spare", text);
}
