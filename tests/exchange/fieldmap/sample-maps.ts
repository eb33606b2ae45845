import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type LoadedMap, loadFieldMap } from "../../../src/exchange/fieldmap/index.ts";
import type { Configuration, FieldMap, UnitProfile } from "../../../src/model/index.ts";

const folder = join(import.meta.dirname, "..", "..", "..", "samples");

export const sampleFile = (name: string): Buffer => readFileSync(join(folder, name));
export const sampleJson = <T>(name: string): T => JSON.parse(sampleFile(name).toString("utf8")) as T;

export interface SampleExportCase {
  readonly name: string;
  readonly bytes: Buffer;
  readonly loaded: LoadedMap;
  /** The screen that the export carries, without the place of its schema. */
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
}

function sampleCase(file: string, map: string, screen: string, profileId = map): SampleExportCase {
  const { $schema: _schema, ...configuration } = sampleJson<Configuration>(`screens/${screen}.json`);
  return {
    name: file,
    bytes: sampleFile(`exports/${file}`),
    loaded: loadFieldMap(sampleJson<FieldMap>(`maps/${map}.json`)),
    configuration,
    profile: sampleJson<UnitProfile>(`profiles/${profileId}.json`),
  };
}

export const SAMPLE_EXPORTS: readonly SampleExportCase[] = [
  sampleCase("lantern-mill-1.xml", "skarn-30", "lantern-mill/screen-1"),
  sampleCase("copper-heron-1.xml", "skarn-30", "copper-heron/screen-1"),
  sampleCase("copper-heron-2.csv", "whimbrel-32", "copper-heron/screen-2"),
  sampleCase("lantern-mill-4.txt", "dunlin-16", "lantern-mill/screen-4"),
  sampleCase("copper-heron-2.json", "whimbrel-32-service", "copper-heron/screen-2", "whimbrel-32"),
  sampleCase("lantern-mill-4.ini", "dunlin-16-sections", "lantern-mill/screen-4", "dunlin-16"),
];
