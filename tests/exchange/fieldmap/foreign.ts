import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type LoadedMap, loadFieldMap, readExport } from "../../../src/exchange/fieldmap/index.ts";
import type { Configuration, FieldMap } from "../../../src/model/index.ts";

const folder = join(import.meta.dirname, "foreign");

export interface ForeignExport {
  readonly name: string;
  readonly bytes: Buffer;
  readonly loaded: LoadedMap;
}

/**
 * Exports of one invented screen in forms unlike the samples: a list of lists keyed by channels; XML with name spaces and
 * text beside elements; a table with a title and units below its names; sections that stand many times, whose values are
 * ranges; commands with positions and units. Written, with their maps, before the program was tried on them.
 */
export const FOREIGN_EXPORTS: readonly ForeignExport[] = readdirSync(folder)
  .filter((name) => !name.endsWith(".map.json"))
  .map((name) => {
    const map = `${name.slice(0, name.lastIndexOf("."))}.map.json`;
    return {
      name,
      bytes: readFileSync(join(folder, name)),
      loaded: loadFieldMap(JSON.parse(readFileSync(join(folder, map), "utf8")) as FieldMap),
    };
  });

/** The one that holds the whole screen; what the others lack is taken from it. */
export function foreignScreen(): Configuration {
  const whole = FOREIGN_EXPORTS.find(({ name }) => name === "curlew.json")!;
  return readExport(whole.bytes, whole.loaded).configuration;
}
