import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { FindPlace, FindValue } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { addFilters, type FilterOptions, filterOf } from "./history.ts";

interface FindOptions extends FilterOptions {
  readonly min?: number;
  readonly max?: number;
}

const HELP = `
The place is a JSON Pointer (RFC 6901) when it starts with '/'; list items may
be named by their id there. Otherwise it is a field's name, or the end of its
path joined by dots. The value is JSON, or text where it is none.

Exit codes: 0 found, 1 no entry answers to this, 2 wrong use or unreadable,
3 some entries could not be searched.

  boothkeep find logbook highPass.frequencyHz 900
  boothkeep find logbook /unit/serial G28-004519
  boothkeep find logbook delayMs --min 80 --site lantern-mill`;

export function addFind(program: Command, context: Context): void {
  addFilters(program.command("find"))
    .summary("find the entries whose configurations hold a value")
    .description("Finds the entries whose configurations hold a value.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<place>", "JSON Pointer, or name of a field")
    .argument("[value]", "value; any value without it")
    .option("--min <number>", "numbers from here on", numberOption)
    .option("--max <number>", "numbers up to here", numberOption)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, place: string, value: string | undefined, options: FindOptions) =>
      search(logbook, place, value, options, context),
    );
}

async function search(
  folder: string,
  placeText: string,
  valueText: string | undefined,
  options: FindOptions,
  context: Context,
): Promise<void> {
  const { findEntries } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const place: FindPlace = placeText.startsWith("/")
    ? { kind: "pointer", pointer: placeText }
    : { kind: "field", field: placeText };
  const value = wantedValue(valueText, options);
  const result = findEntries(logbook, { place, value, filter: filterOf(options) });
  if (options.json === true) {
    context.out(jsonText(result));
  } else {
    const { renderText } = await import("../../src/public/boothkeep.ts");
    const { searchReport } = await import("../../src/public/report.ts");
    const report = searchReport(result, `${placeText} ${valueWords(value)}`);
    context.out(renderText(report, { columns: context.columns, color: context.color }));
  }
  sayNotes(result, context);
  if (result.hits.length === 0) context.exit(EXIT_CODE.found);
}

function wantedValue(text: string | undefined, { min, max }: FindOptions): FindValue {
  if (min !== undefined || max !== undefined) {
    return { kind: "range", ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) };
  }
  if (text === undefined) return { kind: "any" };
  try {
    const value: unknown = JSON.parse(text);
    if (value === null || ["string", "number", "boolean"].includes(typeof value)) {
      return { kind: "equal", value: value as string | number | boolean | null };
    }
  } catch {
    // No JSON: a text without quotes.
  }
  return { kind: "equal", value: text };
}

function valueWords(value: FindValue): string {
  switch (value.kind) {
    case "any":
      return "with any value";
    case "equal":
      return `= ${JSON.stringify(value.value)}`;
    case "range":
      return `from ${value.min ?? "the lowest"} to ${value.max ?? "the highest"}`;
  }
}

function numberOption(text: string): number {
  const value = Number(text);
  if (text.trim() !== "" && Number.isFinite(value)) return value;
  throw new BoothkeepError("usage.wrong", `'${text}' is no number.`, { next: "Give a number: --min 80" });
}
