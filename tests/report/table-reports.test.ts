import { describe, expect, it } from "vitest";
import { renderHtml, renderMarkdown, renderText, tablesRefusedReport } from "../../src/report/index.ts";
import { expectGolden } from "./golden.ts";
import { measured, tablesRefused, tablesTaken } from "./sample-table-reports.ts";

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
    const text = renderText(tablesTaken);
    expectGolden("tables/taken.txt", text);
    expect(text.indexOf("Protection of drivers")).toBeLessThan(text.indexOf("What else changed"));
  });

  it("what is wrong with tables", () => {
    expectGolden("tables/refused.txt", renderText(tablesRefused));
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
