import type { Sha256 } from "../../base/canonical/index.ts";
import { readBound } from "./bound-file.ts";
import { type FileStore, faultCode } from "./file-store.ts";
import { readLines, readTolerantly } from "./kept-files.ts";
import { BOUND, fileDigest, folderName, REGISTER } from "./layout.ts";

/*
 * The mark of a bound file says which records the file holds, so that, were the file lost, everybody knows what is missing
 * and when all of it is back. Marks of logbooks of format 1.0 are empty.
 */

export interface MarkedRecord {
  /** Folder name of the record's screen. */
  readonly screen: string;
  /** The first digits of its id. */
  readonly id: string;
}

/** Digits of an id in a mark: as many as in names of bases, far more than a site has records. */
const ID_DIGITS = 16;

/** What the mark of a bound file with these records holds. */
export function boundMark(records: readonly { readonly screen: string; readonly id: Sha256 }[]): Uint8Array {
  const lines = records.map(({ screen, id }) => `${screen}.${id.slice(0, ID_DIGITS)}\n`).join("");
  return new TextEncoder().encode(`${lines}${fileDigest(new TextEncoder().encode(lines))}\n`);
}

/** The records that a mark `SITE.DIGEST` lists; undefined for an empty, torn or damaged mark: nobody knows. */
export function readBoundMark(store: FileStore, name: string): readonly MarkedRecord[] | undefined {
  const bytes = tolerantly(store, `${REGISTER}/${BOUND}/${name}`);
  return bytes && listedIn(bytes);
}

function listedIn(bytes: Uint8Array): readonly MarkedRecord[] | undefined {
  const text = new TextDecoder().decode(bytes);
  const lines = text.split("\n");
  if (lines.pop() !== "") return undefined;
  const digest = lines.pop();
  const listed = lines.map((line) => `${line}\n`).join("");
  if (digest !== fileDigest(new TextEncoder().encode(listed))) return undefined;
  return lines.map((line) => {
    const dot = line.lastIndexOf(".");
    return { screen: line.slice(0, dot), id: line.slice(dot + 1) };
  });
}

/** What a mark is good for: `empty` ones, and those that are gone, never listed anything. */
export function boundMarkState(
  store: FileStore,
  name: string,
): "listed" | "empty" | "damaged" | "unreadable" {
  let bytes: Uint8Array | undefined;
  try {
    bytes = readTolerantly(store, `${REGISTER}/${BOUND}/${name}`);
  } catch (error) {
    if (faultCode(error) === "ENOENT") return "empty";
    throw error;
  }
  if (bytes === undefined) return "unreadable";
  if (bytes.length === 0) return "empty";
  return listedIn(bytes) === undefined ? "damaged" : "listed";
}

/** What the mark of a bound file that is here ought to hold; undefined where the file is damaged. */
export function markOfBound(bytes: Uint8Array): Uint8Array | undefined {
  const bound = readBound(bytes);
  if (bound === undefined) return undefined;
  const records: { screen: string; id: Sha256 }[] = [];
  for (const member of bound.index.members) {
    const lines = readLines(bound.lines(member));
    if (lines === undefined) return undefined;
    for (const line of lines) {
      if (line.kind !== "record") continue;
      records.push({ screen: folderName(line.item.record.screenId), id: line.item.id });
    }
  }
  return boundMark(records);
}

function tolerantly(store: FileStore, path: string): Uint8Array | undefined {
  try {
    return readTolerantly(store, path);
  } catch (error) {
    if (faultCode(error) === "ENOENT") return undefined;
    throw error;
  }
}
