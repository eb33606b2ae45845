import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import type { Configuration, UnitProfile } from "../../src/model/index.ts";

export const SAMPLES_FOLDER = join(import.meta.dirname, "..", "..", "samples");

/** The JSON files of one folder of samples, as committed. */
function filesOf(folder: string): string[] {
  return readdirSync(join(SAMPLES_FOLDER, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".json"))
    .map((name) => `${folder}/${name.split(sep).join("/")}`)
    .sort();
}

function read(name: string): unknown {
  return JSON.parse(readFileSync(join(SAMPLES_FOLDER, name), "utf8"));
}

export const PROFILES: readonly (readonly [string, UnitProfile])[] = filesOf("profiles").map((name) => [
  name,
  read(name) as UnitProfile,
]);

export const CONFIGURATIONS: readonly (readonly [string, Configuration])[] = [
  ...filesOf("screens"),
  ...filesOf("visits"),
].map((name) => [name, read(name) as Configuration]);

/** The screens as left: visits carry faults on purpose. */
export const SCREENS = CONFIGURATIONS.filter(([name]) => name.startsWith("screens/"));

export function profileOf(configuration: Configuration): UnitProfile {
  const found = PROFILES.find(([, profile]) => profile.id === configuration.unit.profileId);
  if (found === undefined) throw new Error(`No profile ${configuration.unit.profileId}`);
  return found[1];
}
