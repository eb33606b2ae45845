import { statSync } from "node:fs";
import { resolve } from "node:path";
import type { Logbook } from "../src/public/boothkeep.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";
import { openLogbookFolder } from "./restorable-entry.ts";

/** Opens a logbook's folder, or a handover pack as a logbook that holds its entries. */
export async function openLogbookOrPack(name: string, context: Context): Promise<Logbook> {
  const stat = statSync(resolve(context.cwd, name), { throwIfNoEntry: false });
  if (stat?.isFile() !== true) return openLogbookFolder(name, context);
  const { readPack, memoryLogbook } = await import("../src/public/logbook.ts");
  const { entry, entrySignatures, configuration, previous } = await readPack(readInput(name, context.cwd));
  const own = entry === undefined ? [] : [{ entry, configuration, signatures: entrySignatures }];
  return memoryLogbook([...previous, ...own]);
}
