import { statSync } from "node:fs";
import { resolve } from "node:path";
import type { Logbook } from "../src/public/boothkeep.ts";
import type { LogbookPolicy } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { readPackFile } from "./pack-file.ts";
import { openLogbookFolder } from "./restorable-entry.ts";

/**
 * Opens a logbook's folder, or a handover pack as a logbook that holds its entries.
 *
 * @param policy of the logbook that a pack's entries are to come into: its signature is judged by it
 * @throws BoothkeepError pack.*, logbook.*
 */
export async function openLogbookOrPack(
  name: string,
  context: Context,
  policy?: LogbookPolicy,
): Promise<Logbook> {
  const stat = statSync(resolve(context.cwd, name), { throwIfNoEntry: false });
  if (stat?.isFile() !== true) return openLogbookFolder(name, context);
  const { canonicalText } = await import("../src/public/model.ts");
  const { memoryLogbook } = await import("../src/public/logbook.ts");
  const pack = await readPackFile(name, context, policy);
  const { entry, entrySignatures, configuration, previous, profile, attachments } = pack;
  const own = entry === undefined ? [] : [{ entry, configuration, signatures: entrySignatures }];
  const parts = [new TextEncoder().encode(canonicalText(profile)), ...attachments.map(({ bytes }) => bytes)];
  return memoryLogbook([...previous, ...own], parts);
}
