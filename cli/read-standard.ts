import { BoothkeepError } from "../src/public/boothkeep.ts";
import { type CompiledStandard, compileStandard, type Standard } from "../src/public/fleet.ts";
import type { Context } from "./context.ts";
import { readDocumentFile } from "./documents.ts";

/**
 * Reads a standard and makes it ready; what contradicts itself is told with the file.
 * @throws BoothkeepError input.*, document.*, standard.*
 */
export async function readStandard(file: string, context: Context): Promise<CompiledStandard> {
  return compiledAt(file, await readDocumentFile(file, "boothkeep.standard", context));
}

/**
 * Makes a standard ready that was read from a file.
 * @throws BoothkeepError standard.*
 */
export function compiledAt(file: string, standard: Standard): CompiledStandard {
  try {
    return compileStandard(standard);
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
