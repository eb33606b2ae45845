import { describe, expect, it } from "vitest";
import { X_CURVE_TOLERANCE_DB } from "../../src/acoustics/index.ts";
import { applyTables } from "../../src/jobs/index.ts";
import type { Calibration, Configuration } from "../../src/model/index.ts";
import {
  measuredReport,
  type ReportDocument,
  renderHtml,
  renderMarkdown,
  renderText,
  tablesRefusedReport,
  tablesTakenReport,
} from "../../src/report/index.ts";
import { measuredAgainstXCurve } from "../../src/tables/index.ts";
import { asLeft } from "../changes/samples.ts";
import { csvFiles, looseTables, profileOf } from "../tables/support.ts";
import { expectGolden } from "./golden.ts";

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

function measured(plots: boolean): ReportDocument {
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

const taken = applied((rows, column) => {
  const hf = rows.get("left-hf")!;
  hf[column("High-pass corner (Hz)")] = 1000;
  hf[column("Limiter in use")] = "none";
  hf[column("Output delay (ms)")] = 0.123;
});

const refused = applied((rows, column) => {
  rows.get("left-hf")![column("Output gain (dB)")] = "-3,5";
  rows.get("left-mf")![column("Polarity")] = "inv";
  rows.get("left-lf")![column("High-pass corner (Hz)")] = 4;
});

describe("reports on tables and measurements", () => {
  it("measured responses on a terminal", () => {
    const text = renderText(measured(false));
    expectGolden("tables/measured.txt", text);
    expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it("measured responses as a page with a curve for each channel", () => {
    const html = renderHtml(measured(true));
    expect(html.match(/<polyline class="after"/g)).toHaveLength(7);
    expect(html.match(/<polyline class="target"/g)).toHaveLength(7);
    expect(html.match(/<circle class="outside"/g)!.length).toBeGreaterThan(2);
    expect(html).toContain("not verified");
    expect(renderMarkdown(measured(true))).toMatch(/Largest distance of each channel from the X-curve/);
  });

  it("what tables changed", () => {
    if (taken.kind === "refused") throw new Error("It was refused.");
    expectGolden("tables/taken.txt", renderText(tablesTakenReport(taken)));
    const text = renderText(tablesTakenReport(taken));
    expect(text.indexOf("Protection of drivers")).toBeLessThan(text.indexOf("What else changed"));
  });

  it("what is wrong with tables", () => {
    if (refused.kind === "taken") throw new Error("It was taken.");
    expectGolden("tables/refused.txt", renderText(tablesRefusedReport(refused)));
  });

  it("let nothing act that a table holds", () => {
    const hostile = tablesRefusedReport({
      problems: [
        {
          file: "a\u001b[31m.csv",
          sheet: "\u202e",
          heading: "<b>",
          words: "'<script>\u0007' is no number.",
          next: "x.",
        },
      ],
      total: 1,
    });
    const text = renderText(hostile);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not be there
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f\u202e]/);
    expect(renderHtml(hostile)).not.toContain("<script>");
  });
});
