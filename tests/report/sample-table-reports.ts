import { X_CURVE_TOLERANCE_DB } from "../../src/acoustics/index.ts";
import { measuredAgainstXCurve } from "../../src/exchange/tables/index.ts";
import { applyTables } from "../../src/jobs/index.ts";
import type { Calibration, Configuration } from "../../src/model/index.ts";
import {
  measuredReport,
  type ReportDocument,
  tablesRefusedReport,
  tablesTakenReport,
} from "../../src/report/index.ts";
import { asLeft } from "../diff/changes/samples.ts";
import { csvFiles, looseTables, profileOf } from "../exchange/tables/support.ts";

/** The sample with a hump in one channel and a hole in another. */
function uneven(): Configuration & { readonly calibration: Calibration } {
  const draft = structuredClone(asLeft) as unknown as {
    calibration: { channels: { channelId: string; thirdOctavesDb?: number[] }[] };
  };
  for (const { channelId, thirdOctavesDb } of draft.calibration.channels) {
    for (const band of { C: [5, 6, 7], Rss: [16] }[channelId] ?? []) {
      thirdOctavesDb![band]! += channelId === "C" ? 4 : -6;
    }
  }
  return draft as unknown as Configuration & { readonly calibration: Calibration };
}

export function measured(plots: boolean): ReportDocument {
  const configuration = uneven();
  const { calibration } = configuration;
  const channels = measuredAgainstXCurve(configuration);
  return measuredReport({ configuration, calibration, channels, toleranceDb: X_CURVE_TOLERANCE_DB, plots });
}

/** Applies tables of the sample after a change of their cells. */
function applied(
  change: (cells: Map<string, (string | number | undefined)[]>, column: (heading: string) => number) => void,
) {
  const [table] = looseTables(asLeft, "outputs");
  const rows = new Map(table!.rows.map((row) => [String(row[2]), row]));
  change(rows, (heading) => table!.headings.indexOf(heading));
  return applyTables(asLeft, csvFiles([table!]), { profile: profileOf(asLeft), nearest: true });
}

const changed = applied((rows, column) => {
  const hf = rows.get("left-hf")!;
  hf[column("High-pass corner (Hz)")] = 1000;
  hf[column("Limiter in use")] = "none";
  hf[column("Output delay (ms)")] = 0.123;
});

const wrong = applied((rows, column) => {
  rows.get("left-hf")![column("Output gain (dB)")] = "-3,5";
  rows.get("left-mf")![column("Polarity")] = "inv";
  rows.get("left-lf")![column("High-pass corner (Hz)")] = 4;
});

if (changed.kind === "refused" || wrong.kind === "taken")
  throw new Error("The tables do not do what they should.");

/** What a table with a moved crossover, a limiter less and a number between steps changed. */
export const tablesTaken: ReportDocument = tablesTakenReport(changed);

/** Three cells that are wrong. */
export const tablesRefused: ReportDocument = tablesRefusedReport(wrong);
