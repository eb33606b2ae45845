import { canonicalHash } from "../../base/canonical/index.ts";
import type { Entry, PackManifest } from "../../model/index.ts";
import type { KeptDocument } from "../entries/index.ts";
import { type PackRole, SINGLE_FILES } from "./pack-files.ts";
import { refusal } from "./refusals.ts";
import type { PreviousEntry } from "./write-pack.ts";

/** What a manifest describes. */
export interface DescribedContent {
  readonly configuration: KeptDocument;
  readonly profile: KeptDocument;
  readonly entry: Entry | undefined;
  readonly previous: readonly PreviousEntry[];
}

/**
 * A manifest is what people and programs read first: whatever it says of the pack, the contents say too.
 *
 * @throws BoothkeepError pack.inconsistent
 */
export function checkManifest(manifest: PackManifest, content: DescribedContent): void {
  const { configuration, profile, entry, previous } = content;
  const whose = whoseOf(configuration);
  same("The manifest", manifest, whose);
  if (profile.id !== whose.profileId) {
    throw contradiction(
      `The unit profile is '${told(profile.id)}', the configuration's unit is '${whose.profileId}'.`,
    );
  }
  if (entry !== undefined) same("The entry", entry, whose);
  for (const earlier of previous) {
    const name = `Previous entry ${earlier.entry.number}`;
    const own = whoseOf(earlier.configuration);
    same(name, earlier.entry, own);
    if (own.siteId !== whose.siteId || own.screenId !== whose.screenId) {
      throw contradiction(`${name} is of another screen, '${own.siteId}/${own.screenId}'.`);
    }
    if (entry !== undefined && (earlier.entry.number > entry.number || isSame(earlier.entry, entry))) {
      throw contradiction(`${name} is not from before entry ${entry.number}.`);
    }
  }
  for (const { name, role } of manifest.files) {
    if (!isNameOf(role, name)) throw contradiction(`'${name}' is no name of a file for '${role}'.`);
  }
  if (Number.isNaN(Date.parse(manifest.createdAt))) {
    throw contradiction(`The manifest's date, '${manifest.createdAt}', is no date.`);
  }
}

interface Whose {
  readonly siteId: string;
  readonly screenId: string;
  readonly profileId: string;
  readonly serial: string;
}

function whoseOf({ screen, unit }: KeptDocument): Whose {
  const text = (part: unknown, name: string): string => told((part as KeptDocument | undefined)?.[name]);
  return {
    siteId: text(screen, "siteId"),
    screenId: text(screen, "screenId"),
    profileId: text(unit, "profileId"),
    serial: text(unit, "serial"),
  };
}

function told(value: unknown): string {
  return typeof value === "string" ? value : "";
}

function same(
  what: string,
  { siteId, screenId, unit }: Pick<PackManifest, "siteId" | "screenId" | "unit">,
  whose: Whose,
): void {
  const described = { siteId, screenId, profileId: unit.profileId, serial: unit.serial };
  for (const name of ["siteId", "screenId", "profileId", "serial"] as const) {
    if (described[name] === whose[name]) continue;
    throw contradiction(
      `${what} says ${FIELD_WORDS[name]} '${described[name]}', the configuration says '${whose[name]}'.`,
    );
  }
}

const FIELD_WORDS: Readonly<Record<keyof Whose, string>> = {
  siteId: "site",
  screenId: "screen",
  profileId: "unit profile",
  serial: "serial number",
};

function isSame(a: Entry, b: Entry): boolean {
  return canonicalHash(a) === canonicalHash(b);
}

/** The names that are given when a pack is written: no other one is ever taken for a file on a disk. */
function isNameOf(role: PackRole, name: string): boolean {
  const single: Readonly<Record<string, string>> = SINGLE_FILES;
  return single[role] === undefined
    ? new RegExp(`^${role}-[0-9]{2}\\.${role === "attachment" ? "bin" : "json"}$`).test(name)
    : single[role] === name;
}

function contradiction(words: string) {
  return refusal("inconsistent", words);
}
