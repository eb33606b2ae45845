import { csvText } from "../../src/base/text/index.ts";
import { tablesOf, takeTables } from "../../src/exchange/tables/index.ts";
import { readCsv, readWorkbook, writeWorkbook } from "../../src/exchange/workbook/index.ts";
import { asLeft } from "../diff/changes/samples.ts";
import { profileOf } from "../exchange/tables/support.ts";

const ROUNDS = 25;

/** Median processor time of a task in milliseconds, warm. */
async function medianCpuMs(task: () => unknown): Promise<number> {
  for (let round = 0; round < 5; round += 1) await task();
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = process.cpuUsage();
    await task();
    const { user, system } = process.cpuUsage(start);
    times.push((user + system) / 1000);
  }
  return Math.round(times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]! * 10) / 10;
}

/** All tables of the large sample as CSV and as a workbook, out and in. */
export async function run(): Promise<unknown> {
  const profile = profileOf(asLeft);
  const tables = tablesOf(asLeft);
  const texts = () => tables.map(({ headings, rows }) => csvText([headings, ...rows]));
  const sheets = () => tables.map(({ name, headings, rows }) => ({ name, rows: [headings, ...rows] }));
  const csv = texts().map((text) => Buffer.from(text, "utf8"));
  const workbook = await writeWorkbook(sheets());
  const take = (read: ReturnType<typeof readCsv>[]) =>
    takeTables(asLeft, [{ file: "tables", sheets: read }], { profile });
  const cells = tables.reduce((sum, { headings, rows }) => sum + headings.length * rows.length, 0);
  return {
    cells,
    csvBytes: csv.reduce((sum, bytes) => sum + bytes.length, 0),
    workbookBytes: workbook.length,
    medianCpuMs: {
      "tables of a configuration": await medianCpuMs(() => tablesOf(asLeft)),
      "CSV written": await medianCpuMs(texts),
      "CSV read": await medianCpuMs(() => csv.map((bytes) => readCsv(bytes))),
      "workbook written": await medianCpuMs(() => writeWorkbook(sheets())),
      "workbook read": await medianCpuMs(() => readWorkbook(workbook)),
      "tables taken": await medianCpuMs(() => take(csv.map((bytes) => readCsv(bytes)))),
    },
  };
}
