import { existsSync, readdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import type { UnitProfile } from "../src/public/boothkeep.ts";
import { BoothkeepError } from "../src/public/boothkeep.ts";
import type { Entry } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { readProfileFile } from "./documents.ts";

/** Text of the option that every command which needs profiles has. */
export const PROFILES_OPTION = [
  "--profiles <folder>",
  "folder of unit profiles (see 'Unit profiles' below)",
] as const;

/** Help text that goes with {@link PROFILES_OPTION}. */
export const PROFILES_HELP = `
Unit profiles are looked for in the folder that --profiles names, else in the
folder that BOOTHKEEP_PROFILES names, else in a folder 'profiles' beside the
document or in a folder above it, else in the logbook, which keeps the profile
with what was recorded.`;

const FOLDER_NAME = "profiles";

export interface ProfileSearch {
  /** What --profiles said. */
  readonly folder?: string | undefined;
  /** The document that needs the profile. */
  readonly near?: string | undefined;
  /** The entry that needs it, where that comes from a logbook: the profile that was kept with it counts first there. */
  readonly entry?: Entry | undefined;
}

/**
 * Finds the unit profile with this id.
 * @throws BoothkeepError profile.unknown, and whatever reading a profile throws
 */
export async function findProfile(id: string, search: ProfileSearch, context: Context): Promise<UnitProfile> {
  const folders = profileFolders(search, context);
  const seen: string[] = [];
  for (const folder of folders) {
    for (const file of jsonFiles(folder, id)) {
      const profile = await readProfileFile(file, context);
      if (profile.id === id) return profile;
      seen.push(profile.id);
    }
  }
  const kept = search.folder === undefined ? await keptNear(id, search, context) : undefined;
  if (kept !== undefined) return kept;
  throw new BoothkeepError("profile.unknown", `There is no unit profile '${id}' at hand.`, {
    place: { id, ...(search.near === undefined ? {} : { file: search.near }) },
    next:
      seen.length > 0
        ? `Known here: ${seen.join(", ")}. Name another folder with --profiles.`
        : "Name the folder that holds the unit profiles with --profiles.",
    data: { known: seen },
  });
}

/** The profile that a logbook or a handover pack carries with it: either is enough by itself. */
async function keptNear(
  id: string,
  { near, entry }: ProfileSearch,
  context: Context,
): Promise<UnitProfile | undefined> {
  if (near === undefined) return undefined;
  const path = resolve(context.cwd, near);
  if (!existsSync(join(path, "logbook.json"))) return undefined;
  const { folderStore, openLogbook } = await import("../src/public/boothkeep.ts");
  const { keptProfile } = await import("../src/public/logbook.ts");
  const { readProfile } = await import("../src/public/boothkeep.ts");
  const document = keptProfile(openLogbook(folderStore(path)), id, entry);
  return document && readProfile(JSON.stringify(document), { file: near }).document;
}

/** The unit's profile; none where it is not at hand and nobody named a folder for it. */
export async function profileAtHand(
  id: string,
  search: ProfileSearch,
  context: Context,
): Promise<UnitProfile | undefined> {
  try {
    return await findProfile(id, search, context);
  } catch (error) {
    const unknown = error instanceof BoothkeepError && error.code === "profile.unknown";
    if (unknown && search.folder === undefined) return undefined;
    throw error;
  }
}

/**
 * A unit profile by what the user typed: a file if there is one of that name, else an id.
 * @throws BoothkeepError as {@link findProfile}
 */
export async function profileFrom(
  fileOrId: string,
  search: ProfileSearch,
  context: Context,
): Promise<UnitProfile> {
  if (/[./\\]/.test(fileOrId)) return readProfileFile(fileOrId, context);
  return findProfile(fileOrId, search, context);
}

/**
 * Every unit profile of the nearest folder that holds any.
 * @throws BoothkeepError profile.unknown where no folder holds one, and whatever reading a profile throws
 */
export async function allProfiles(search: ProfileSearch, context: Context): Promise<readonly UnitProfile[]> {
  for (const folder of profileFolders(search, context)) {
    const files = jsonFiles(folder, "");
    if (files.length > 0) return Promise.all(files.map((file) => readProfileFile(file, context)));
  }
  throw new BoothkeepError("profile.unknown", "There is no unit profile at hand.", {
    next: "Name the folder that holds the unit profiles with --profiles.",
  });
}

function profileFolders({ folder, near }: ProfileSearch, context: Context): readonly string[] {
  if (folder !== undefined) return [resolve(context.cwd, folder)];
  const fromEnvironment = context.env.BOOTHKEEP_PROFILES;
  if (fromEnvironment) return [resolve(context.cwd, fromEnvironment)];
  const found: string[] = [];
  let here = near === undefined ? context.cwd : dirname(resolve(context.cwd, near));
  for (;;) {
    found.push(join(here, FOLDER_NAME));
    const above = dirname(here);
    if (above === here) return found;
    here = above;
  }
}

/** The file that bears the id comes first, so that a damaged neighbour does not matter. */
function jsonFiles(folder: string, id: string): readonly string[] {
  try {
    return readdirSync(folder)
      .filter((name) => name.endsWith(".json"))
      .sort((a, b) => Number(b === `${id}.json`) - Number(a === `${id}.json`) || (a < b ? -1 : 1))
      .map((name) => join(folder, name));
  } catch {
    return [];
  }
}
