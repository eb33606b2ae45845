import { BoothkeepError } from "../src/public/boothkeep.ts";
import type { LoadedMap } from "../src/public/exchange.ts";
import type { Context } from "./context.ts";
import { readDocumentFile } from "./documents.ts";

/** A field map from a file, checked and ready. */
export async function readFieldMapFile(file: string, context: Context): Promise<LoadedMap> {
  const { loadFieldMap } = await import("../src/public/exchange.ts");
  const map = await readDocumentFile(file, "boothkeep.field-map", context);
  try {
    return loadFieldMap(map);
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
