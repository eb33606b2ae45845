import { readdirSync, statSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/errors/index.ts";
import type { Account, LoadedMap, ReadExport } from "../../src/fieldmap/index.ts";
import type { Configuration } from "../../src/model/index.ts";
import { harmless } from "../../src/text/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { errorText } from "../error-text.ts";
import { readFieldMapFile } from "../field-maps.ts";
import { readInput, writeNew } from "../files.ts";
import { progress } from "../progress.ts";
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

With a folder every file in it is read, and '--out' is a folder; what cannot
be read is said and does not stop the rest.

Exit codes: 0 read, 1 read but the export has values that the map does not
know, 2 wrong use, or an export that cannot be read.

  boothkeep read --map maps/gabbro-28.json export.xml --out as-found.json
  boothkeep read --map maps/gabbro-28.json exports --out as-found`;

export function addRead(program: Command, context: Context): void {
  program
    .command("read")
    .summary("read a unit's own export by a field map")
    .description(
      "Reads the export of a unit into a configuration by a field map, with an account of every value.",
    )
    .argument("<export>", "export of the unit, or a folder of exports")
    .requiredOption("--map <file>", "field map")
    .option("--out <file>", "configuration to be written")
    .option("--base <file>", "configuration that gives what the export does not hold")
    .option("--json", "print configuration and account as one JSON document")
    .addHelpText("after", HELP)
    .action((file: string, options: ReadOptions) => read(file, options, context));
}

async function read(file: string, options: ReadOptions, context: Context): Promise<void> {
  const loaded = await readFieldMapFile(options.map, context);
  const base = options.base === undefined ? undefined : await readConfigurationFile(options.base, context);
  if (statSync(resolve(context.cwd, file), { throwIfNoEntry: false })?.isDirectory() === true) {
    return readFolder(file, { loaded, base, options }, context);
  }
  const result = await readOne(file, loaded, base, context);
  if (options.out !== undefined) writeNew(options.out, documentText(result.configuration), context.cwd);
  if (options.json === true) context.out(JSON.stringify(result));
  else context.out(accountText(result, options.out, context.columns));
  if (result.account.counts.unknown > 0) context.exit(EXIT_CODE.found);
}

interface FolderJob {
  readonly loaded: LoadedMap;
  readonly base: Configuration | undefined;
  readonly options: ReadOptions;
}

async function readFolder(
  folder: string,
  { loaded, base, options }: FolderJob,
  context: Context,
): Promise<void> {
  if (options.out === undefined) {
    throw new BoothkeepError("usage.wrong", "A folder of exports needs a folder to write into.", {
      next: "Name it with --out.",
    });
  }
  const names = readdirSync(resolve(context.cwd, folder), { withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith("."))
    .map((entry) => entry.name)
    .sort();
  const bar = progress(context, "Read", names.length);
  const told: { name: string; counts?: Account["counts"]; error?: unknown }[] = [];
  for (const [i, name] of names.entries()) {
    try {
      const { configuration, account } = await readOne(join(folder, name), loaded, base, context);
      writeNew(join(options.out, `${basename(name)}.json`), documentText(configuration), context.cwd);
      told.push({ name, counts: account.counts });
      if (account.counts.unknown > 0) context.exit(EXIT_CODE.found);
    } catch (error) {
      if (!(error instanceof BoothkeepError)) throw error;
      context.exit(error.exitCode);
      told.push({ name, error: error.toJSON() });
      if (options.json !== true) context.err(errorText(error, context.columns));
    }
    bar.at(i + 1);
  }
  bar.end();
  if (options.json === true) return context.out(JSON.stringify({ exports: told }));
  const read = told.filter(({ counts }) => counts !== undefined);
  const unknown = read.filter(({ counts }) => counts!.unknown > 0).length;
  context.out(
    `${read.length} of ${names.length} exports read into ${options.out}; ${unknown} of them with unknown values.`,
  );
}

async function readOne(
  file: string,
  loaded: LoadedMap,
  base: Configuration | undefined,
  context: Context,
): Promise<ReadExport> {
  const { readExport } = await import("../../src/fieldmap/index.ts");
  return readExport(readInput(file, context.cwd), loaded, { file, ...(base === undefined ? {} : { base }) });
}

export function documentText(configuration: Configuration): string {
  return `${JSON.stringify(configuration, null, 2)}\n`;
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
