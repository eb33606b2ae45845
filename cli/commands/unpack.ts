import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { Pack, TrustedKey } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readInput, writeNewFolder } from "../files.ts";
import { paperSource } from "../paper-source.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface UnpackOptions {
  readonly out?: string;
  readonly policyOf?: string;
  readonly json?: boolean;
}

const HELP = `
Trusts nothing in the pack: names, sizes, structure and contents are checked
before anything is written. Without '--out' it only checks and shows; with it
the folder is there whole or not at all. Sheets and cautions are made anew from
the data; those of the pack are kept as bytes (as-packed-*.bin). Whose
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
  const { checkPackDocuments } = await import("../../src/public/logbook.ts");
  try {
    checkPackDocuments(pack);
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
  if (options.out !== undefined && !isBroken) {
    writeNewFolder(options.out, await filesOf(pack, file, context), context.cwd);
  }
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

/**
 * The files that a pack is taken out into: documents and attachments under the names that are listed, sheets and cautions made
 * anew from the data. What came as text or HTML is kept as bytes that no program opens by itself.
 */
async function filesOf(
  pack: Pack,
  file: string,
  context: Context,
): Promise<readonly (readonly [name: string, content: string | Uint8Array])[]> {
  const { renderHtml, renderText } = await import("../../src/public/boothkeep.ts");
  const { cautionBlock, handoverSheet } = await import("../../src/public/report.ts");
  const { configuration, profile, origin, imprint } = await paperSource(file, {}, context);
  const sheet = handoverSheet(configuration, { profile, origin, imprint, notes: MADE_ANEW });
  const cautions = renderText({ title: "Before you load these settings", blocks: [cautionBlock()] });
  const json = (document: unknown) => `${jsonText(document, 2)}\n`;
  const number = (index: number) => String(index + 1).padStart(2, "0");
  const { signature } = pack;
  return [
    ["manifest.json", json(pack.manifest)],
    ...(signature.kind === "unsigned" ? [] : [["signature-verdict.json", json(signature)] as const]),
    ["configuration.json", json(pack.configuration)],
    ["unit-profile.json", json(pack.profile)],
    ...(pack.entry === undefined ? [] : [["entry.json", json(pack.entry)] as const]),
    ...pack.entrySignatures.map(
      (own, index) => [`entry-signature-${number(index)}.json`, json(own)] as const,
    ),
    ...pack.previous.flatMap(({ entry, configuration: earlier }, index) => [
      [`previous-entry-${number(index)}.json`, json(entry)] as const,
      [`previous-configuration-${number(index)}.json`, json(earlier)] as const,
    ]),
    ...pack.attachments.map(({ bytes }, index) => [`attachment-${number(index)}.bin`, bytes] as const),
    ["sheet.txt", renderText(sheet)],
    ["sheet.html", renderHtml(sheet)],
    ["cautions.txt", cautions],
    ["as-packed-sheet-txt.bin", pack.sheets.text],
    ["as-packed-sheet-html.bin", pack.sheets.html],
    ["as-packed-cautions-txt.bin", pack.cautions],
  ];
}

const MADE_ANEW =
  "Made anew from the data of the pack. Remarks and warnings of whoever made the pack are in as-packed-sheet-txt.bin: read them too.";
