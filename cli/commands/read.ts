import type { Command } from "commander";
import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { Account, ReadExport } from "../../src/public/exchange.ts";
import { harmless, jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { readFieldMapFile } from "../field-maps.ts";
import { writeNew } from "../files.ts";
import { documentText, isFolder, readExportFile, readExports } from "../read-exports.ts";
import { indented } from "../wrap.ts";

interface ReadOptions {
  readonly map: string;
  readonly out?: string;
  readonly base?: string;
  readonly json?: boolean;
}

const HELP = `
An export either fits its map as a whole or nothing of it is read. The account
says of every value of the export whether it was used, ignored on purpose or
is unknown. '--base' names a configuration that gives what the export does not
hold (the room, the loudspeakers, the calibration).

With several exports, or a folder, every file is read and '--out' is a folder.
What cannot be read does not stop the rest and is told at the end. Nothing is
written over: run the same command again after an interruption, and what is
there already stays as it is.

Exit codes: 0 read, 1 read but the export has values that the map does not
know, 2 wrong use, or an export that cannot be read.

  boothkeep read --map maps/skarn-30.json export.xml --out as-found.json
  boothkeep read --map maps/skarn-30.json exports --out as-found`;

export function addRead(program: Command, context: Context): void {
  program
    .command("read")
    .summary("read a unit's own export by a field map")
    .description(
      "Reads the export of a unit into a configuration by a field map, with an account of every value.",
    )
    .argument("<export...>", "exports of the unit, or folders of exports")
    .requiredOption("--map <file>", "field map")
    .option("--out <path>", "configuration to be written; for several exports a folder")
    .option("--base <file>", "configuration that gives what the export does not hold")
    .option("--json", "print configuration and account as one JSON document")
    .addHelpText("after", HELP)
    .action((files: readonly string[], options: ReadOptions) => read(files, options, context));
}

async function read(files: readonly string[], options: ReadOptions, context: Context): Promise<void> {
  const loaded = await readFieldMapFile(options.map, context);
  const base = options.base === undefined ? undefined : await readConfigurationFile(options.base, context);
  const [first] = files;
  if (files.length > 1 || isFolder(first!, context)) {
    return readExports(files, { loaded, base, out: options.out, json: options.json === true }, context);
  }
  const result = await readExportFile(first!, { loaded, base }, context);
  if (options.out !== undefined) writeNew(options.out, documentText(result.configuration), context.cwd);
  if (options.json === true) context.out(jsonText(result));
  else context.out(accountText(result, options.out, context.columns));
  if (result.account.counts.unknown > 0) context.exit(EXIT_CODE.found);
}

const ORIGIN_WORDS: Readonly<Record<Account["fields"][number]["origin"], string>> = {
  export: "from the export",
  place: "from places in the export",
  joined: "made of other fields",
  map: "from the map itself",
  base: "from the base configuration",
  boothkeep: "of the document",
};

const SHOWN = 20;

function accountText(
  { configuration, account }: ReadExport,
  out: string | undefined,
  columns: number,
): string {
  const { counts } = account;
  const { screen, unit } = configuration;
  const lines = [
    `${screen.siteName}, ${screen.screenName}: unit ${unit.serial}, ${unit.profileId}, firmware ${unit.firmware}`,
    "",
    `Values of the export     ${counts.values}`,
    `  used                   ${counts.used}`,
    `  ignored on purpose     ${counts.ignored}`,
    `  unknown                ${counts.unknown}`,
  ];
  for (const { pointer, raw, line } of account.unknown.slice(0, SHOWN)) {
    lines.push(indented(harmless(`line ${line}: ${pointer} = ${raw.slice(0, 40)}`), columns));
  }
  if (counts.unknown > SHOWN) lines.push(`    and ${counts.unknown - SHOWN} more; --json lists them all`);
  lines.push("", `Fields of the configuration ${account.fields.length}`);
  for (const [origin, words] of Object.entries(ORIGIN_WORDS)) {
    const count = account.fields.filter((field) => field.origin === origin).length;
    if (count > 0) lines.push(`  ${words.padEnd(30)} ${count}`);
  }
  lines.push("", out === undefined ? "Nothing was written; name a file with --out." : `Written: ${out}`);
  return lines.join("\n");
}
