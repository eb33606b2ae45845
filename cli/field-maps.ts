import { BoothkeepError } from "../src/base/errors/index.ts";
import type { LoadedMap } from "../src/exchange/fieldmap/index.ts";
import type { FieldMap } from "../src/model/index.ts";
import type { Context } from "./context.ts";
import { readDocumentFile } from "./documents.ts";

/** A field map from a file, checked and ready. */
export async function readFieldMapFile(file: string, context: Context): Promise<LoadedMap> {
  const { loadFieldMap } = await import("../src/exchange/fieldmap/index.ts");
  const map = await readDocumentFile<FieldMap>(file, "boothkeep.field-map", context);
  try {
    return loadFieldMap(map);
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
