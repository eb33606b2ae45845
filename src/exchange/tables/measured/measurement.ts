import { CALIBRATION_BANDS, nominalThirdOctaveHz } from "../../../acoustics/index.ts";
import { type Configuration, nearestName } from "../../../model/index.ts";
import { quotedShort } from "../../../words/index.ts";
import { isUnusable, type Sheet, type SheetRow } from "../../workbook/index.ts";
import { Problems, type TablePlace, type TableProblem } from "../taking/problem.ts";
import { readCell } from "../taking/read-cell.ts";
import { bandOfHz, hzOfText, nearBands } from "./bands.ts";
import { FREQUENCY_HEADING, IN_BAND_ROW, isHeading, LEVEL_ROW, measuredColumn } from "./headings.ts";

/** What was measured of one program channel, at one place or as somebody averaged it. */
export interface MeasuredColumn {
  readonly channelId: string;
  readonly positionId?: string;
  /** Level in dB by third octave (IEC 61260-1: 0 is 1 kHz). */
  readonly levelsDb: ReadonlyMap<number, number>;
  readonly levelDbC?: number;
  readonly inBandGainDb?: number;
}

/** A table of measured third octaves, or everything that is wrong with it. */
export type ReadMeasurement =
  | { readonly kind: "read"; readonly columns: readonly MeasuredColumn[] }
  | { readonly kind: "refused"; readonly problems: readonly TableProblem[]; readonly total: number };

/**
 * Reads measured third octaves: a column "Frequency (Hz)", then one for each program channel ("L"), or one for each
 * microphone position ("L at p1"). Rows "Measured level (dB SPL)" and "Measured in-band gain (dB)" may stand below. Every
 * third octave from 40 Hz to 16 kHz must be there once.
 */
export function readMeasurement(sheet: Sheet, file: string, configuration: Configuration): ReadMeasurement {
  const problems = new Problems();
  const place: TablePlace = { file, ...(sheet.name === undefined ? {} : { sheet: sheet.name }) };
  const table = { sheet, place, problems };
  const columns = headerOf(table, configuration);
  const rows = columns === undefined ? [] : rowsOf(table);
  const read = (columns ?? []).map((column) => levelsOf(column, rows, table));
  if (problems.total > 0) return { kind: "refused", problems: problems.listed, total: problems.total };
  return { kind: "read", columns: read };
}

interface MeasuredTable {
  readonly sheet: Sheet;
  readonly place: TablePlace;
  readonly problems: Problems;
}

interface HeaderColumn {
  readonly index: number;
  readonly heading: string;
  readonly channelId: string;
  readonly positionId?: string;
}

function headerOf(
  { sheet, place, problems }: MeasuredTable,
  configuration: Configuration,
): readonly HeaderColumn[] | undefined {
  const header = sheet.rows[0];
  const headings =
    header?.cells.map((cell) => (cell === undefined || isUnusable(cell) ? "" : String(cell).trim())) ?? [];
  if (header === undefined || !isHeading(headings[0] ?? "", FREQUENCY_HEADING)) {
    problems.add(
      { ...place, row: header?.number ?? 1, column: 1 },
      `The table does not start with a column '${FREQUENCY_HEADING}'.`,
      "Put the frequencies into the first column, and the program channels beside it.",
    );
    return undefined;
  }
  const columns = headings.slice(1).flatMap((heading, k): HeaderColumn[] => {
    const index = k + 1;
    const at = { ...place, row: header.number, column: index + 1 };
    if (heading === "") {
      if (sheet.rows.some(({ cells }) => cells[index] !== undefined)) {
        problems.add(
          at,
          "A column has values but no heading.",
          "Name its program channel, or take its cells out.",
        );
      }
      return [];
    }
    return [{ index, heading, ...measuredColumn(heading) }];
  });
  for (const column of columns)
    checkColumn(column, columns, { configuration, problems, place: { ...place, row: header.number } });
  if (columns.length === 0) {
    problems.add(
      { ...place, row: header.number },
      "The table has no column of levels.",
      "Add one for each program channel.",
    );
  }
  return columns;
}

function checkColumn(
  { index, heading, channelId, positionId }: HeaderColumn,
  all: readonly HeaderColumn[],
  {
    configuration,
    problems,
    place,
  }: { readonly configuration: Configuration; readonly problems: Problems; readonly place: TablePlace },
): void {
  const at = { ...place, column: index + 1, heading };
  const ids = configuration.channels.map(({ id }) => id);
  if (!ids.includes(channelId)) {
    const meant = nearestName(channelId, ids);
    problems.add(
      at,
      `The configuration has no program channel ${quotedShort(channelId)}.`,
      `${meant === undefined ? "" : `Was '${meant}' meant? `}Name the channel, or channel and microphone position ('L at p1'). There are: ${ids.join(", ")}.`,
    );
  }
  const same = all.find((other) => other.channelId === channelId && other.positionId === positionId);
  if (same!.index !== index) {
    problems.add(at, `${quotedShort(heading)} stands in two columns.`, "Keep one of the two.");
  }
  const mixed = all.find(
    (other) =>
      other.channelId === channelId && (other.positionId === undefined) !== (positionId === undefined),
  );
  if (mixed !== undefined && mixed.index < index) {
    problems.add(
      at,
      `${quotedShort(channelId)} stands with and without a microphone position.`,
      "Give its average, or its levels at each position.",
    );
  }
}

/** A row with what its levels are: those of a band, or the two that stand below. */
interface MeasuredRow {
  readonly row: SheetRow;
  readonly is: number | "levelDbC" | "inBandGainDb";
}

function rowsOf({ sheet, place, problems }: MeasuredTable): readonly MeasuredRow[] {
  const seen = new Map<MeasuredRow["is"], number>();
  const rows = sheet.rows.slice(1).flatMap((row): MeasuredRow[] => {
    const at = { ...place, row: row.number, column: 1, heading: FREQUENCY_HEADING };
    const is = meaningOf(row, sheet.decimal, (words, next) => problems.add(at, words, next));
    if (is === undefined) return [];
    const before = seen.get(is);
    if (before !== undefined) {
      const name =
        typeof is === "number"
          ? `${nominalThirdOctaveHz(is)} Hz`
          : is === "levelDbC"
            ? LEVEL_ROW
            : IN_BAND_ROW;
      problems.add(at, `${name} stands twice; the other is row ${before}.`, "Keep one of the two.");
      return [];
    }
    seen.set(is, row.number);
    return [{ row, is }];
  });
  const missing: number[] = [];
  for (let band: number = CALIBRATION_BANDS.first; band <= CALIBRATION_BANDS.last; band += 1) {
    if (!seen.has(band)) missing.push(nominalThirdOctaveHz(band));
  }
  if (missing.length > 0 && problems.total === 0) {
    problems.add(
      place,
      `${missing.length === 1 ? "A third octave is" : `${missing.length} third octaves are`} missing: ${missing.map((hz) => `${hz} Hz`).join(", ")}.`,
      "Give every third octave from 40 Hz to 16 kHz.",
    );
  }
  return rows;
}

function meaningOf(
  { cells }: SheetRow,
  decimal: "." | ",",
  wrong: (words: string, next: string) => void,
): MeasuredRow["is"] | undefined {
  const [first] = cells;
  if (first === undefined || isUnusable(first) || typeof first === "boolean") {
    wrong("The row has no frequency.", "Write the third octave's frequency, or take the row out.");
    return undefined;
  }
  if (typeof first === "string" && isHeading(first, LEVEL_ROW)) return "levelDbC";
  if (typeof first === "string" && isHeading(first, IN_BAND_ROW)) return "inBandGainDb";
  const frequencyHz = typeof first === "number" ? first : hzOfText(first, decimal);
  if (frequencyHz === undefined) {
    wrong(
      `${quotedShort(String(first))} is no frequency.`,
      `Write a third octave in Hz, or '${LEVEL_ROW}' or '${IN_BAND_ROW}'.`,
    );
    return undefined;
  }
  const band = bandOfHz(frequencyHz);
  if (band === undefined) {
    wrong(
      `${frequencyHz} Hz is no third octave from 20 Hz to 20 kHz.`,
      `Near it: ${nearBands(frequencyHz)
        .map((hz) => `${hz} Hz`)
        .join(" and ")} (nominal; exact frequencies of IEC 61260-1 will do).`,
    );
  }
  return band;
}

function levelsOf(
  column: HeaderColumn,
  rows: readonly MeasuredRow[],
  { sheet, place, problems }: MeasuredTable,
): MeasuredColumn {
  const levelsDb = new Map<number, number>();
  const single: { levelDbC?: number; inBandGainDb?: number } = {};
  for (const { row, is } of rows) {
    const at = { ...place, row: row.number, column: column.index + 1, heading: column.heading };
    const cell = row.cells[column.index];
    const reading = readCell(cell, {
      takes: { kind: "number" },
      before: undefined,
      optional: false,
      decimal: sheet.decimal,
    });
    if (reading.kind === "wrong") problems.add(at, reading.words, reading.next);
    else if (reading.kind === "value" && typeof reading.value === "number") {
      if (typeof is === "number") levelsDb.set(is, reading.value);
      else single[is] = reading.value;
    } else if (typeof is === "number" && is >= CALIBRATION_BANDS.first && is <= CALIBRATION_BANDS.last) {
      problems.add(at, "The level is missing.", "Fill it in, or take the column out.");
    }
  }
  const { channelId, positionId } = column;
  return { channelId, ...(positionId === undefined ? {} : { positionId }), levelsDb, ...single };
}
