import { join } from "node:path";
import { type Command, Option } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { ConfigurationTable, TableName } from "../../src/public/exchange.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { PROFILES_HELP, PROFILES_OPTION, profileAtHand } from "../profiles.ts";
import { formatOf, formatOption, printReport, type ReportFormat } from "../report-output.ts";
import {
  type CsvOptions,
  type CsvReadingOptions,
  csvForm,
  decimalOption,
  encodingOption,
  isWorkbookName,
  readSheets,
  separatorOption,
} from "../table-files.ts";
import { wrap } from "../wrap.ts";

/** As src/exchange/tables names them; a test holds the two lists together. */
export const TABLES = [
  "inputs",
  "channels",
  "graphic-eq",
  "parametric-eq",
  "presets",
  "routing",
  "outputs",
  "output-mix",
  "output-filters",
  "loudspeakers",
  "loudspeaker-ways",
] as const;

interface WriteOptions extends CsvOptions {
  readonly out: string;
  readonly only?: readonly TableName[];
  readonly byteOrderMark?: boolean;
  readonly json?: boolean;
}

interface TakeOptions extends CsvReadingOptions {
  readonly out: string;
  readonly nearest?: boolean;
  readonly profiles?: string;
  readonly report?: string;
  readonly format?: ReportFormat;
  readonly json?: boolean;
}

const WRITE_HELP = `
A name that ends in .xlsx gives a workbook with a sheet for each table, one
that ends in .csv a single table, any other name a folder of CSV files.
Every row starts with the keys that say what it is; headings bear the unit.

  boothkeep table write screen-1.json --out screen-1.xlsx
  boothkeep table write screen-1.json --only outputs --out outputs.csv
  boothkeep table write screen-1.json --separator semicolon --out tables`;

const TAKE_HELP = `
Rows are matched by their keys and columns by their headings: rows and
columns may be left out and may stand in any order. An empty cell leaves a
value as it is; 'none' clears one (a high-pass by its family, a limiter by
'Limiter in use'), and takes a filter out by its kind, a share of a mix or a
crossing by its gain. A row with a new key in the tables of filters, mixes
and routing adds one.

Either everything is taken or nothing: whatever does not fit is told with
its cell. The result is a new configuration; nothing is written over.

Exit codes: 0 taken, 1 taken and the rule book finds something new that is
more than advice, 2 wrong use, or tables that do not fit.

  boothkeep table take screen-1.json screen-1.xlsx --out screen-1-new.json
  boothkeep table take screen-1.json outputs.csv --nearest --out new.json
${PROFILES_HELP}`;

export function addTable(program: Command, context: Context): void {
  const table = program
    .command("table")
    .summary("write settings as tables, take filled-in tables")
    .description("Equalizers, levels, delays, outputs and presets as tables for a spreadsheet, and back.");
  table
    .command("write")
    .summary("write tables out of a configuration")
    .description("Writes the tables of a configuration: a workbook (.xlsx), or CSV.")
    .argument("<configuration>", "configuration")
    .requiredOption("--out <name>", "workbook, CSV file or folder to be written")
    .addOption(new Option("--only <table...>", "these tables alone").choices(TABLES))
    .addOption(separatorOption())
    .addOption(decimalOption())
    .option("--byte-order-mark", "start CSV files with a mark by which some spreadsheets know UTF-8")
    .option("--json", "print what was written as one JSON document")
    .addHelpText("after", WRITE_HELP)
    .action((file: string, options: WriteOptions) => writeTables(file, options, context));
  table
    .command("take")
    .summary("take filled-in tables into a new configuration")
    .description("Takes filled-in tables into a new configuration, and says what that changes.")
    .argument("<configuration>", "configuration that the tables were made of")
    .argument("<table...>", "workbooks (.xlsx) and CSV files")
    .requiredOption("--out <file>", "configuration to be written")
    .option("--nearest", "move numbers between the unit's steps to the nearest one")
    .addOption(separatorOption())
    .addOption(decimalOption())
    .addOption(encodingOption())
    .option(...PROFILES_OPTION)
    .option("--report <file>", "write the account into a new file (.html, .md, .txt)")
    .addOption(formatOption())
    .option("--json", "print the account as one JSON document")
    .addHelpText("after", TAKE_HELP)
    .action((file: string, tables: readonly string[], options: TakeOptions) =>
      take(file, tables, options, context),
    );
}

async function writeTables(file: string, options: WriteOptions, context: Context): Promise<void> {
  const configuration = await readConfigurationFile(file, context);
  const { tablesOf } = await import("../../src/public/exchange.ts");
  const tables = tablesOf(configuration, options.only === undefined ? {} : { only: options.only });
  const files = isWorkbookName(options.out)
    ? await asWorkbook(tables, options, context)
    : await asCsv(tables, options, context);
  const told = tables.map(({ name, rows }, index) => ({
    table: name,
    rows: rows.length,
    file: files[index] ?? files[0]!,
  }));
  if (options.json === true) return context.out(jsonText({ tables: told }));
  const width = Math.max(...told.map(({ table }) => table.length));
  context.out(
    [
      ...told.map(({ table, rows }) => `${table.padEnd(width)}  ${String(rows).padStart(4)} rows`),
      "",
      wrap(`Written: ${options.out}`, context.columns),
      wrap(
        "Change cells, save, and take them back with 'boothkeep table take'. An empty cell leaves a value as it is.",
        context.columns,
      ),
    ].join("\n"),
  );
}

async function asWorkbook(
  tables: readonly ConfigurationTable[],
  { out }: WriteOptions,
  context: Context,
): Promise<readonly string[]> {
  if (!/\.xlsx$/i.test(out)) {
    throw new BoothkeepError("usage.wrong", "Only workbooks of the present kind are written.", {
      next: "Give a name that ends in .xlsx.",
    });
  }
  const { writeWorkbook } = await import("../../src/public/exchange.ts");
  const sheets = tables.map(({ name, headings, rows, keyColumns, choices }) => ({
    name,
    rows: [headings, ...rows],
    fixedColumns: keyColumns,
    choices,
  }));
  writeNew(out, await writeWorkbook(sheets), context.cwd);
  return [out];
}

async function asCsv(
  tables: readonly ConfigurationTable[],
  options: WriteOptions,
  context: Context,
): Promise<readonly string[]> {
  const { out, byteOrderMark = false } = options;
  const { csvText } = await import("../../src/public/exchange.ts");
  const single = /\.(csv|tsv|txt)$/i.test(out);
  if (single && tables.length > 1) {
    throw new BoothkeepError("usage.wrong", `A CSV file holds one table; there are ${tables.length}.`, {
      next: `Choose one with --only (${tables.map(({ name }) => name).join(", ")}), or name a folder or a workbook (.xlsx).`,
    });
  }
  return tables.map(({ name, headings, rows }) => {
    const file = single ? out : join(out, `${name}.csv`);
    writeNew(file, csvText([headings, ...rows], { ...csvForm(options), byteOrderMark }), context.cwd);
    return file;
  });
}

async function take(
  file: string,
  names: readonly string[],
  options: TakeOptions,
  context: Context,
): Promise<void> {
  const configuration = await readConfigurationFile(file, context);
  const { profileId } = configuration.unit;
  const profile = await profileAtHand(profileId, { folder: options.profiles, near: file }, context);
  const files = [];
  for (const name of names) files.push({ file: name, sheets: await readSheets(name, options, context) });
  const { applyTables } = await import("../../src/public/exchange.ts");
  const today = context.now().toISOString().slice(0, 10);
  const applied = applyTables(configuration, files, { profile, nearest: options.nearest === true, today });
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const { tablesRefusedReport, tablesTakenReport } = await import("../../src/public/report.ts");
  if (applied.kind === "refused") {
    context.exit(EXIT_CODE.usage);
    if (formatOf(printing(options)) === "json") return context.out(jsonText(applied));
    return context.err(renderText(tablesRefusedReport(applied), { columns: context.columns }));
  }
  writeNew(options.out, `${jsonText(applied.configuration, 2)}\n`, context.cwd);
  const { configuration: _configuration, ...account } = applied;
  await printReport(tablesTakenReport(applied), { ...printing(options), data: account }, context);
  context.err(wrap(`New configuration: ${options.out}`, context.columns));
  if (applied.newFindings.some(({ severity }) => severity !== "advice")) context.exit(EXIT_CODE.found);
}

function printing({ report, format, json }: TakeOptions) {
  const named = {
    ...(report === undefined ? {} : { out: report }),
    ...(format === undefined ? {} : { format }),
    ...(json === undefined ? {} : { json }),
  };
  return { ...named, format: formatOf(named) };
}
