import { type Sha256, sha256 } from "../../base/canonical/index.ts";
import { keepFile, keepMark } from "./durable-file.ts";
import { pieces } from "./edits.ts";
import type { FileStore } from "./file-store.ts";
import { pack, unpack } from "./gzip-lines.ts";
import { type KeptFile, readFolder } from "./kept-files.ts";
import { fileName, folderName, REFERENCES } from "./layout.ts";

const ROLES = ["sample", "common", "spare"] as const;
export type ReferenceRole = (typeof ROLES)[number];

/**
 * A whole configuration that first configurations of other screens with the same unit profile are kept against.
 * `sample`: a screen's own; `common`: the value that most samples have, place by place; `spare`: the common one once
 * more, since so much rests on it.
 */
export interface Reference {
  readonly role: ReferenceRole;
  readonly sha256: Sha256;
  readonly text: string;
}

/**
 * So many screens of a profile are kept whole before a common reference is made of them. With five, a value that
 * four screens in five share with their template comes out right 99 times in 100.
 */
const SAMPLES = 5;
const FEWEST_OF_ONE_STRUCTURE = 3;

/** The references of a unit profile, as far as they can be trusted. */
export function readReferences(store: FileStore, profileId: string): readonly Reference[] {
  const { files } = readFolder(store, `${REFERENCES}/${folderName(profileId)}`);
  return files.map(readReference).filter((reference) => reference !== undefined);
}

/** The text of the reference, of any profile, whose SHA-256 starts so. */
export function findReference(store: FileStore, prefix: string): string | undefined {
  for (const { name, kind } of store.list(REFERENCES)) {
    if (kind !== "folder") continue;
    const { files } = readFolder(
      store,
      `${REFERENCES}/${name}`,
      (stem) => stem.split(".")[1]?.startsWith(prefix) === true,
    );
    for (const file of files) {
      const reference = readReference(file);
      if (reference !== undefined) return reference.text;
    }
  }
  return undefined;
}

/** What a file of references/ holds; undefined when that is not what its name says. */
export function readReference(file: KeptFile): Reference | undefined {
  const [role, wanted] = file.stem.split(".");
  const content = unpack(file.bytes);
  if (!isRole(role) || content === undefined || sha256(content) !== wanted) return undefined;
  return { role, sha256: wanted, text: new TextDecoder().decode(content) };
}

function isRole(text: string | undefined): text is ReferenceRole {
  return (ROLES as readonly unknown[]).includes(text);
}

/** Writes a reference and its mark. */
export function keepReference(
  store: FileStore,
  profileId: string,
  role: ReferenceRole,
  text: string,
): Reference {
  const folder = `${REFERENCES}/${folderName(profileId)}`;
  const reference: Reference = { role, sha256: sha256(text), text };
  const stem = `${role}.${reference.sha256}`;
  const bytes = pack(text);
  keepFile(store, folder, fileName(stem, bytes), bytes);
  keepMark(store, folder, stem);
  return reference;
}

/** Whether the next screen of the profile should be kept whole, as another sample. */
export function wantsSample(references: readonly Reference[]): boolean {
  return references.filter((reference) => reference.role === "sample").length < SAMPLES;
}

/** The text of a common reference, once there are samples enough and none was made; undefined otherwise. */
export function commonText(references: readonly Reference[]): string | undefined {
  if (wantsSample(references) || references.some((reference) => reference.role === "common"))
    return undefined;
  const samples = references.map((reference) => reference.text).sort();
  const byStructure = new Map<string, (readonly string[])[]>();
  for (const parts of samples.map(pieces)) {
    const structure = parts.filter((_, index) => index % 2 === 0).join("\n");
    byStructure.set(structure, [...(byStructure.get(structure) ?? []), parts]);
  }
  const alike = [...byStructure.values()].sort((a, b) => b.length - a.length)[0]!;
  if (alike.length < FEWEST_OF_ONE_STRUCTURE) return undefined;
  return alike[0]!.map((_, index) => mostFrequent(alike.map((parts) => parts[index]!))).join("");
}

/** The text that occurs most often; among equals the one that comes first. */
function mostFrequent(texts: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  return [...counts].reduce((best, next) => (next[1] > best[1] ? next : best))[0];
}
