import type { Command } from "commander";
import { BoothkeepError, type Configuration, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { MeasuredColumn, TableProblem, TakenMeasurement } from "../../src/public/exchange.ts";
import type { MicrophonePosition } from "../../src/public/model.ts";
import { harmless, jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { formatOf, formatOption, printReport, type ReportOptions } from "../report-output.ts";
import {
  type CsvReadingOptions,
  decimalOption,
  encodingOption,
  readSheets,
  separatorOption,
} from "../table-files.ts";
import { wrap } from "../wrap.ts";

interface TakeOptions extends CsvReadingOptions {
  readonly out: string;
  readonly by: string;
  readonly date?: string;
  readonly eqSet?: string;
  readonly positions?: string;
  readonly json?: boolean;
}

const TAKE_HELP = `
The table starts with a column 'Frequency (Hz)'; beside it stands a column
for each program channel ('L'), or for each microphone position ('L at p1').
Positions are averaged by power in each third octave. Every third octave from
40 Hz to 16 kHz must be there once, by its nominal or exact frequency. Rows
'Measured level (dB SPL)' and, for the LFE, 'Measured in-band gain (dB)' may
stand below; without them what was measured before is kept.

Channels that are not in the table keep what they had, and the remarks say
so. '--positions' names a table 'Microphone position', 'Position across (m)',
'Distance from the screen (m)', 'Height (m)'.

  boothkeep measured take screen-1.json measured.csv --by "Alignment team" \\
    --date 2026-11-02 --out screen-1-measured.json`;

const SHOW_HELP = `
What was measured is held against the X-curve. The tolerance that is drawn is
from memory and not verified: what lies outside is worth a look, and no fault
by itself. A page (.html) has the curves.

  boothkeep measured show screen-1.json
  boothkeep measured show screen-1.json --out measured.html`;

export function addMeasured(program: Command, context: Context): void {
  const measured = program
    .command("measured")
    .summary("take measured responses, show them beside the X-curve")
    .description("Measured third octaves: into the calibration, and beside the X-curve.");
  measured
    .command("take")
    .summary("take measured third octaves into a new configuration")
    .description("Takes a table of measured third octaves into the calibration of a new configuration.")
    .argument("<configuration>", "configuration of the screen that was measured")
    .argument("<table>", "CSV file or workbook (.xlsx) of one sheet")
    .requiredOption("--out <file>", "configuration to be written")
    .requiredOption("--by <who>", "who measured: a team or a role")
    .option("--date <date>", "day of the measurement (default: today)")
    .option("--eq-set <id>", "EQ set that was active (default: that of the calibration before)")
    .option("--positions <file>", "table of the microphone positions")
    .addOption(separatorOption())
    .addOption(decimalOption())
    .addOption(encodingOption())
    .option("--json", "print the account as one JSON document")
    .addHelpText("after", TAKE_HELP)
    .action((file: string, table: string, options: TakeOptions) => take(file, table, options, context));
  measured
    .command("show")
    .summary("show measured responses beside the X-curve")
    .description("Shows the measured responses of a configuration beside the X-curve.")
    .argument("<configuration>", "configuration")
    .option("--out <file>", "new file (.html, .md, .txt, .json)")
    .addOption(formatOption())
    .option("--json", "print the figures as one JSON document")
    .addHelpText("after", SHOW_HELP)
    .action((file: string, options: ReportOptions) => show(file, options, context));
}

async function take(file: string, table: string, options: TakeOptions, context: Context): Promise<void> {
  const configuration = await readConfigurationFile(file, context);
  const { takeMeasurement } = await import("../../src/public/exchange.ts");
  const columns = await measuredColumns(table, configuration, options, context);
  const positions = await positionsFrom(options, context);
  if (columns === undefined || positions === "refused") return;
  const taken = inFile(table, () =>
    takeMeasurement(configuration, columns, {
      date: options.date ?? context.now().toISOString().slice(0, 10),
      by: options.by,
      ...(options.eqSet === undefined ? {} : { equalizationId: options.eqSet }),
      ...(positions === undefined ? {} : { positions }),
    }),
  );
  writeNew(options.out, `${jsonText(taken.configuration, 2)}\n`, context.cwd);
  if (options.json === true) {
    const { configuration: _configuration, ...account } = taken;
    context.out(jsonText(account));
  } else context.out(accountText(taken, context.columns));
  context.err(wrap(`New configuration: ${options.out}`, context.columns));
}

/** Names the table in what is wrong with it. */
function inFile<Result>(file: string, task: () => Result): Result {
  try {
    return task();
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}

async function measuredColumns(
  table: string,
  configuration: Configuration,
  options: TakeOptions,
  context: Context,
): Promise<readonly MeasuredColumn[] | undefined> {
  const { readMeasurement } = await import("../../src/public/exchange.ts");
  const read = readMeasurement(await onlySheet(table, options, context), table, configuration);
  if (read.kind === "read") return read.columns;
  await refuse(read, options, context);
  return undefined;
}

async function positionsFrom(
  options: TakeOptions,
  context: Context,
): Promise<readonly MicrophonePosition[] | "refused" | undefined> {
  if (options.positions === undefined) return undefined;
  const { readPositions } = await import("../../src/public/exchange.ts");
  const read = readPositions(await onlySheet(options.positions, options, context), options.positions);
  if (read.kind === "read") return read.positions;
  await refuse(read, options, context);
  return "refused";
}

async function onlySheet(file: string, options: TakeOptions, context: Context) {
  const sheets = (await readSheets(file, options, context)).filter(({ rows }) => rows.length > 0);
  const [only] = sheets;
  if (only !== undefined && sheets.length === 1) return only;
  throw new BoothkeepError(
    "table.not-readable",
    sheets.length === 0 ? "The table holds no cell." : "The workbook has several sheets.",
    {
      place: { file },
      next: "Name a CSV file, or a workbook with one sheet.",
    },
  );
}

async function refuse(
  refused: { readonly problems: readonly TableProblem[]; readonly total: number },
  { json }: TakeOptions,
  context: Context,
): Promise<void> {
  context.exit(EXIT_CODE.usage);
  if (json === true) return context.out(jsonText(refused));
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const { tablesRefusedReport } = await import("../../src/public/report.ts");
  context.err(renderText(tablesRefusedReport(refused), { columns: context.columns }));
}

function accountText({ channels, keptChannels, configuration }: TakenMeasurement, columns: number): string {
  const { siteName, screenName } = configuration.screen;
  const width = Math.max(...channels.map(({ channelId }) => channelId.length));
  const lines = channels.map(({ channelId, positions, spreadDb }) =>
    positions === 1
      ? `${channelId.padEnd(width)}  as in the table`
      : `${channelId.padEnd(width)}  power average of ${positions} positions, at most ${spreadDb.toFixed(1)} dB apart`,
  );
  const kept =
    keptChannels.length === 0
      ? []
      : [wrap(`Not measured now, kept from before: ${keptChannels.join(", ")}.`, columns)];
  return [
    harmless(`${siteName}, ${screenName}: measured ${configuration.calibration?.date}`),
    "",
    ...lines,
    ...kept,
    "",
    wrap(
      "See it beside the X-curve with 'boothkeep measured show'; check it with 'boothkeep validate'.",
      columns,
    ),
  ].join("\n");
}

async function show(file: string, options: ReportOptions, context: Context): Promise<void> {
  const configuration = await readConfigurationFile(file, context);
  const { calibration } = configuration;
  if (calibration === undefined) {
    throw new BoothkeepError("usage.wrong", "The configuration has no calibration: nothing was measured.", {
      place: { file },
      next: "Take measurements into it with 'boothkeep measured take'.",
    });
  }
  const { measuredAgainstXCurve } = await import("../../src/public/exchange.ts");
  const { X_CURVE_TOLERANCE_DB: toleranceDb } = await import("../../src/public/acoustics.ts");
  const { measuredReport } = await import("../../src/public/report.ts");
  const channels = measuredAgainstXCurve(configuration);
  const format = formatOf(options);
  const report = measuredReport({
    configuration,
    calibration,
    channels,
    toleranceDb,
    plots: format !== "text",
  });
  await printReport(
    report,
    { ...options, format, data: { toleranceDb, toleranceVerified: false, channels } },
    context,
  );
}
