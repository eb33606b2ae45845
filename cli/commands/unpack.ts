import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { Pack, TrustedKey } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readInput, writeNew } from "../files.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface UnpackOptions {
  readonly out?: string;
  readonly policyOf?: string;
  readonly json?: boolean;
}

const HELP = `
Trusts nothing in the pack: names, sizes, structure and contents are checked
before anything is written. Without '--out' it only checks and shows. Whose
signature is trusted says the policy of the logbook that '--policy-of' names.

Exit codes: 0 sound, 1 not signed by a trusted key though '--policy-of' names
some, 2 wrong use or unreadable, 3 damaged, unsafe, or its signature does not
hold; nothing is written then.

  boothkeep unpack lantern-mill-1.zip
  boothkeep unpack lantern-mill-1.zip --out from-the-pack --policy-of logbook`;

export function addUnpack(program: Command, context: Context): void {
  program
    .command("unpack")
    .summary("check a handover pack, and take its files out")
    .description("Checks a handover pack and takes its files out.")
    .argument("<pack>", "handover pack (.zip)")
    .option("--out <folder>", "new folder for the files")
    .option("--policy-of <logbook>", "logbook whose policy says which keys are trusted")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((file: string, options: UnpackOptions) => unpack(file, options, context));
}

async function unpack(file: string, options: UnpackOptions, context: Context): Promise<void> {
  const trustedKeys = await keysOf(options.policyOf, context);
  const pack = await readPackFile(file, trustedKeys, context);
  const isBroken = pack.signature.kind === "broken";
  if (options.out !== undefined && !isBroken) write(pack, options.out, context);
  const { manifest, signature } = pack;
  if (options.json === true) {
    context.out(jsonText({ manifest, signature, out: isBroken ? null : (options.out ?? null) }));
  } else {
    const { packReport } = await import("../../src/public/report.ts");
    const { renderText } = await import("../../src/public/boothkeep.ts");
    context.out(
      renderText(packReport(manifest, signature), { columns: context.columns, color: context.color }),
    );
    if (options.out !== undefined && !isBroken) {
      context.out(wrap(`Files are in ${options.out}.`, context.columns));
    }
  }
  if (isBroken) context.exit(EXIT_CODE.damaged);
  else if (trustedKeys.length > 0 && signature.kind !== "trusted") context.exit(EXIT_CODE.found);
}

async function readPackFile(
  file: string,
  trustedKeys: readonly TrustedKey[],
  context: Context,
): Promise<Pack> {
  const { readPack } = await import("../../src/public/logbook.ts");
  try {
    return await readPack(readInput(file, context.cwd), { trustedKeys });
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}

async function keysOf(folder: string | undefined, context: Context): Promise<readonly TrustedKey[]> {
  if (folder === undefined) return [];
  const { readPolicy } = await import("../../src/public/logbook.ts");
  return readPolicy(await openLogbookFolder(folder, context)).trustedKeys;
}

/** Files get names of ours; none from the pack is ever used as a path. */
function write(pack: Pack, folder: string, context: Context): void {
  if (existsSync(resolve(context.cwd, folder))) {
    throw new BoothkeepError("output.exists", `'${folder}' exists; nothing is ever written over.`, {
      place: { file: folder },
      next: "Give the name of a folder that does not exist yet.",
    });
  }
  const json = (document: unknown) => `${jsonText(document, 2)}\n`;
  const files: readonly (readonly [string, string | Uint8Array])[] = [
    ["configuration.json", json(pack.configuration)],
    ["unit-profile.json", json(pack.profile)],
    ...(pack.entry === undefined ? [] : [["entry.json", json(pack.entry)] as const]),
    ["sheet.txt", pack.sheets.text],
    ["sheet.html", pack.sheets.html],
    ["cautions.txt", pack.cautions],
    ...pack.previous.flatMap(({ entry, configuration }) => [
      [`previous-${entry.number}-entry.json`, json(entry)] as const,
      [`previous-${entry.number}-configuration.json`, json(configuration)] as const,
    ]),
    ...pack.attachments.map(({ bytes }, index) => [`attachment-${index + 1}.bin`, bytes] as const),
  ];
  for (const [name, content] of files) writeNew(join(folder, name), content, context.cwd);
}
