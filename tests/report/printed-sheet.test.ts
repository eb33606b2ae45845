import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { printedImprint } from "../../src/logbook/imprint/index.ts";
import type { Configuration, UnitProfile } from "../../src/model/index.ts";
import {
  entrySheet,
  handoverSheet,
  type ReportDocument,
  renderHtml,
  renderMarkdown,
  renderText,
} from "../../src/report/index.ts";
import { screens } from "../diff/changes/samples.ts";
import { halfBlockRows, scanned, scannedPixels } from "../logbook/imprint/scan.ts";
import { outside, requireOutside } from "../outside.ts";
import { HOSTILE_TEXTS } from "./hostile.ts";
import { tickables } from "./tickable.ts";

const [screen] = screens as [Configuration];
const profile = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../samples/profiles", `${screen.unit.profileId}.json`), "utf8"),
) as UnitProfile;

const imprint = await printedImprint({
  siteId: screen.screen.siteId,
  screenId: screen.screen.screenId,
  entry: { number: 12, id: "d".repeat(64) },
  settingsSha256: "a".repeat(64),
});
const sheet = entrySheet(screen, { profile, imprint });
const handover = handoverSheet(screen, { profile, imprint, origin: [["Entry", "12, as left"]] });

const wide = (text: string): string => (text.repeat(64) || "W").slice(0, 64);

/** The same with labels as long and as hostile as can be. */
const hostile: ReportDocument = (() => {
  const named = <Item extends { readonly label: string }>(items: readonly Item[], texts: readonly string[]) =>
    items.map((item, index) => ({ ...item, label: texts[index % texts.length]! }));
  const texts = [...HOSTILE_TEXTS, wide("W"), wide("漢"), wide("mi")];
  const configuration: Configuration = {
    ...screen,
    screen: { ...screen.screen, siteName: wide("M"), screenName: texts[2]! },
    unit: { ...screen.unit, label: wide("W") },
    sources: named(screen.sources, texts.slice(3)),
    equalizations: named(screen.equalizations, texts.toReversed()),
    presets: named(screen.presets, texts.toReversed()),
    outputs: named(screen.outputs, texts.toReversed()),
    automation: named(
      screen.automation.map((item) =>
        item.trigger.kind === "contact"
          ? item
          : { ...item, trigger: { ...item.trigger, text: "x".repeat(200) } },
      ),
      texts.toReversed(),
    ),
  };
  return { ...entrySheet(configuration, { profile, imprint }), footer: texts.join(" ") };
})();

describe("the code on a sheet as text", () => {
  const codeLines = (text: string) => {
    const lines = text.split("\n");
    const first = lines.findIndex((line) => /^ {4}█▀▀▀▀▀█/.test(line));
    return lines.slice(first - 2, first + Math.ceil(imprint.modules.length / 2));
  };

  it("is read from paper (dark ink) and from a dark terminal without color (inverted)", () => {
    const rows = halfBlockRows(codeLines(renderText(sheet)));
    expect(scanned(rows)).toBe(imprint.text);
    expect(scanned(rows, { inverted: true })).toBe(imprint.text);
  });

  it("is dark on light on a terminal with color, whatever colors the terminal has", () => {
    const styled = renderText(sheet, { color: true });
    const lines = styled.split("\n").filter((line) => /█/.test(line) && line.includes("\u001b[107m"));
    expect(lines.length).toBeGreaterThan(20);
    for (const line of lines) {
      expect(line.startsWith("\u001b[30m\u001b[107m") && line.endsWith("\u001b[49m\u001b[39m")).toBe(true);
    }
  });

  it("gives way to its words where it does not fit, and stands in words in Markdown", () => {
    expect(renderText(sheet, { columns: 40 })).not.toContain("█");
    expect(renderText(sheet, { columns: 40 })).toContain("boothkeep paper 1: lantern-mill/screen-1");
    expect(renderMarkdown(sheet)).toContain("boothkeep paper 1: lantern-mill/screen-1 entry 12");
  });
});

const CHROMIUM = outside("chromium");

describe.runIf(CHROMIUM)("a sheet in a browser", () => {
  let browser: Browser;
  let folder: string;
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: requireOutside("chromium"),
      args: ["--no-sandbox", "--disable-gpu"],
    });
    folder = mkdtempSync(join(tmpdir(), "boothkeep-print-"));
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it.each([
    ["entry sheet", "light", sheet],
    ["entry sheet", "dark", sheet],
    ["handover sheet", "light", handover],
  ] as const)("shows a code that two decoders read (%s, %s)", async (_name, colorScheme, report) => {
    const page = await browser.newPage({ viewport: { width: 900, height: 1200 }, colorScheme });
    await page.setContent(renderHtml({ ...report, blocks: report.blocks.slice(0, 3) }));
    const png = await page.locator("figure.code svg").screenshot();
    await page.close();
    const reader = await browser.newPage();
    const { data, width, height } = (await reader.evaluate(
      `(async () => {
        const image = new Image();
        image.src = "data:image/png;base64,${png.toString("base64")}";
        await image.decode();
        const context = new OffscreenCanvas(image.width, image.height).getContext("2d");
        context.drawImage(image, 0, 0);
        const { data } = context.getImageData(0, 0, image.width, image.height);
        return { data: [...data], width: image.width, height: image.height };
      })()`,
    )) as { data: number[]; width: number; height: number };
    await reader.close();
    expect(scannedPixels(Uint8ClampedArray.from(data), width, height)).toBe(imprint.text);
    if (outside("zbarimg") === undefined) return;
    const file = join(folder, "code.png");
    writeFileSync(file, png);
    expect(
      execFileSync("zbarimg", ["--quiet", "--raw", file], { encoding: "utf8", stdio: "pipe" }).trim(),
    ).toBe(imprint.text);
  });

  async function pdf(report: ReportDocument, format: "A4" | "Letter"): Promise<string> {
    const page = await browser.newPage();
    await page.setContent(renderHtml(report));
    const file = join(folder, `${format}.pdf`);
    await page.pdf({ path: file, format });
    await page.close();
    return file;
  }

  /** Without spaces: where a font's narrow ones are, no reader of PDF files knows. */
  const tight = (text: string): string => text.replace(/\s+/g, "");

  /** The text of each page, spaces folded: its lines as they stand, or ("raw") cell after cell as they were drawn. */
  function pages(file: string, order: "layout" | "raw"): readonly string[] {
    const text = execFileSync("pdftotext", [`-${order}`, file, "-"], {
      encoding: "utf8",
      maxBuffer: 1 << 26,
    });
    return text
      .split("\f")
      .slice(0, -1)
      .map((one) => one.replace(/[^\S\n]+/g, " "));
  }

  it.runIf(outside("pdftotext"))(
    "prints on A4 and Letter: cautions first, every page numbered, no row over two pages",
    async () => {
      for (const format of ["A4", "Letter"] as const) {
        const file = await pdf(sheet, format);
        const found = pages(file, "layout");
        expect(found[0]).toContain("Amplifiers off".toLowerCase());
        expect(found[0]).toContain("Wrong crossovers destroy drivers.");
        expect(found[0]).toContain("boothkeep paper 1: lantern-mill/screen-1 entry 12");
        found.forEach((text, index) => {
          expect(text).toContain(`Page ${index + 1} of ${found.length}`);
          expect(text).toContain(`lantern-mill/screen-1, entry 12, settings ${"a".repeat(16)}`);
        });
        // No table begins at the foot of a page without a row.
        for (const text of found) {
          expect(
            text
              .trim()
              .split("\n")
              .filter((line) => line.trim() !== "")
              .at(-2),
          ).not.toMatch(/Position|Band in Hz|No\. Kind|Trigger/);
        }
        // Every row is whole on one page, whatever the font: where its cells wrap depends on the machine's fonts.
        const rows = tickables(sheet).filter(
          ({ cells }) => cells.length > 3 && Math.max(...cells.map((cell) => cell.length)) < 21,
        );
        expect(rows.length).toBeGreaterThan(200);
        const all = pages(file, "raw").map(tight).join("\n");
        const torn = rows.map(({ cells }) => cells.join("")).filter((row) => !all.includes(tight(row)));
        expect(torn).toEqual([]);
      }
    },
    60_000,
  );

  it.each(["A4", "Letter"] as const)(
    "keeps within the page however long and hostile labels are (%s)",
    async (format) => {
      // Paper less two margins of 15 mm, at 96 px to the inch.
      const width = Math.floor((((format === "A4" ? 210 : 215.9) - 30) / 25.4) * 96);
      const page = await browser.newPage({ viewport: { width, height: 1000 } });
      await page.emulateMedia({ media: "print" });
      await page.setContent(renderHtml(hostile));
      const beyond = await page.evaluate(`(() => {
      const over = [];
      for (const element of document.querySelectorAll("main *")) {
        if (element.closest(".unseen") || element.closest("svg")) continue;
        const { right, left, width } = element.getBoundingClientRect();
        const column = element.closest(".group, main").getBoundingClientRect();
        if (width > 0 && (right > column.right + 0.6 || left < column.left - 0.6)) over.push(element.outerHTML.slice(0, 120));
      }
      return over;
    })()`);
      await page.close();
      expect(beyond).toEqual([]);
    },
    60_000,
  );
});
