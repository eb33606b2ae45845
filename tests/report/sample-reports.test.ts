import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { HtmlValidate } from "html-validate";
import { chromium } from "playwright-core";
import { describe, expect, it } from "vitest";
import { renderHtml, renderMarkdown, renderText } from "../../src/report/index.ts";
import { outside, requireOutside } from "../outside.ts";
import { expectGolden } from "./golden.ts";
import {
  distantComparison,
  fullComparison,
  handover,
  nothingChanged,
  shortComparison,
  visit,
} from "./sample-reports.ts";
import { measured, tablesTaken } from "./sample-table-reports.ts";

const PAGES = {
  "full comparison": fullComparison,
  "distant comparison": distantComparison,
  visit,
  handover,
  "tables taken": tablesTaken,
  "measured responses": measured(true),
};

describe("reports as people read them", () => {
  it("comparison on a terminal", () => {
    expectGolden("comparison/terminal.txt", renderText(shortComparison));
    expectGolden("comparison/terminal-styled.txt", renderText(shortComparison, { color: true }));
    expectGolden("comparison/nothing-changed.txt", renderText(nothingChanged));
  });

  it("comparison as Markdown and HTML", () => {
    expectGolden("comparison/ticket.md", renderMarkdown(fullComparison));
    expectGolden("comparison/page.html", renderHtml(fullComparison));
  });

  it("visit report and handover sheet", () => {
    expectGolden("comparison/visit.txt", renderText(visit));
    expectGolden("comparison/handover.txt", renderText(handover));
  });
});

describe("reports show the cautions", () => {
  it.each(Object.entries(PAGES))("%s", (_name, report) => {
    for (const html of [renderHtml(report), renderText(report).replace(/\s+┃\s+┃\s+/g, " ")]) {
      expect(html).toMatch(/amplifiers off or muted, fader down/);
      expect(html).toMatch(/Local codes and\s+licensed practice decide/);
    }
  });
});

describe("reports keep a look of their own", () => {
  it.each(Object.entries(PAGES))(
    "%s: no marks of adding and taking away, no red and green",
    (_name, report) => {
      expect(renderText(report)).not.toMatch(/^\s*[+-] |^[+-]{3} |^@@/m);
      expect(renderHtml(report)).not.toMatch(
        /<(ins|del)\b|(?:color|fill|stroke|background): *(?:red|green|lime)/,
      );
    },
  );
});

const validator = new HtmlValidate({
  extends: ["html-validate:recommended", "html-validate:document"],
  // A drawing inside the page is XML, where an empty element closes itself.
  rules: { "void-style": "off", "no-self-closing": "off", "long-title": "off" },
});

describe("HTML reports are valid HTML", () => {
  it.each(Object.entries(PAGES))("%s", async (_name, report) => {
    const { results } = await validator.validateString(renderHtml(report));
    expect(
      results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`),
      ),
    ).toEqual([]);
  });
});

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Every kind of page, the one that all others are made like in both widths and both schemes. */
const VIEWS = [
  ["full comparison", 390, "light"],
  ["full comparison", 1280, "dark"],
  ["visit", 390, "dark"],
  ["handover", 1280, "light"],
  ["measured responses", 390, "dark"],
] as const;

describe.runIf(outside("chromium"))("HTML reports in a browser", () => {
  it("pass axe-core in light and dark, fit 390 and 1280 px, load nothing and log nothing", async () => {
    const browser = await chromium.launch({
      executablePath: requireOutside("chromium"),
      args: ["--no-sandbox", "--disable-gpu"],
    });
    try {
      for (const [name, width, colorScheme] of VIEWS) {
        const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
        const said: string[] = [];
        page.on("console", (message) => said.push(message.text()));
        page.on("request", (request) => said.push(request.url()));
        await page.setContent(renderHtml(PAGES[name]));
        expect(said.filter((text) => !text.startsWith("about:"))).toEqual([]);
        const overflow = await page.evaluate(
          "document.documentElement.scrollWidth - document.documentElement.clientWidth",
        );
        expect(overflow, `${name} at ${width} px`).toBe(0);
        await page.evaluate(axe);
        const { violations } = (await page.evaluate('axe.run({ resultTypes: ["violations"] })')) as {
          violations: { id: string; nodes: { html: string }[] }[];
        };
        expect(violations.map(({ id, nodes }) => `${name}: ${id} at ${nodes[0]?.html}`)).toEqual([]);
        await page.close();
      }
    } finally {
      await browser.close();
    }
  }, 120_000);
});
