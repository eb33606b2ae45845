import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { HtmlValidate } from "html-validate";
import { chromium } from "playwright-core";
import { describe, expect, it } from "vitest";
import { AUDIT_CHECKS, assembleAudit, compareAudits } from "../../../src/fleet/audit/index.ts";
import type { AuditedScreen, AuditState } from "../../../src/model/index.ts";
import { auditPage } from "../../../src/report/index.ts";
import { outside, requireOutside } from "../../outside.ts";

const STATES: readonly AuditState[] = ["good", "advice", "warning", "error", "unknown", "none"];

const rows = Array.from(
  { length: 24 },
  (_, index): AuditedScreen => ({
    logbook: "logbook",
    folder: `site-${index >> 3}/screen-${index % 8}`,
    basis: "0".repeat(64),
    siteId: `site-${index >> 3}`,
    siteName: ["Lantern Mill", "Copper Heron", "Ferry House"][index >> 3]!,
    screenId: `screen-${(index % 8) + 1}`,
    screenName: `Screen ${(index % 8) + 1}`,
    profileId: "skarn-30",
    serial: `G28-${index}`,
    firmware: "2.4.1",
    addresses: [],
    entries: 3,
    lastEntryAt: "2026-11-01T10:00:00Z",
    asLeftAt: null,
    calibratedOn: "2026-03-17",
    checks: AUDIT_CHECKS.map((check, at) => {
      const state = index % 8 === 0 ? "good" : STATES[(index + at * at) % STATES.length]!;
      return { check, state, words: `Something about ${check} that takes some words to say, at ${index}.` };
    }),
  }),
);

const auditOf = (screens: readonly AuditedScreen[], auditedAt: string) =>
  assembleAudit(screens, { auditedAt, staleAfterDays: 200, calibrationDays: 730, standards: [] });

/** As it was before: every screen with the states of the next one, and one screen less. */
const before = auditOf(
  rows.slice(1).map((row, index) => ({ ...row, checks: rows[(index + 2) % rows.length]!.checks })),
  "2026-10-25T08:00:00Z",
);
const audit = auditOf(rows, "2026-11-25T08:00:00Z");
const comparison = compareAudits(before, audit);
const page = auditPage(audit, comparison);

describe("the page of an audit", () => {
  it("tells what changed since the audit before, each screen once in each check", () => {
    const { better, worse, otherwise, newScreens } = comparison;
    expect(Math.min(better.length, worse.length, otherwise.length)).toBeGreaterThan(0);
    const table = page.slice(page.indexOf('<table id="changes">'));
    const changes = table.slice(0, table.indexOf("</table>"));
    const named = changes.match(/site-[0-9]\/screen-[0-9]/g);
    expect(named).toHaveLength(better.length + worse.length + otherwise.length);
    expect(page).toContain(`New screens: ${newScreens.join(", ")}.`);
    expect(auditPage(audit)).not.toContain("Since the audit");
  });

  it("is valid HTML", async () => {
    const validator = new HtmlValidate({
      extends: ["html-validate:recommended", "html-validate:document"],
      rules: { "void-style": "off", "long-title": "off" },
    });
    const { results } = await validator.validateString(page);
    expect(
      results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`),
      ),
    ).toEqual([]);
  });
});

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

describe.runIf(outside("chromium"))("the page in a browser", () => {
  it("passes axe-core, fits, sorts, filters, and is complete without script", async () => {
    const browser = await chromium.launch({
      executablePath: requireOutside("chromium"),
      args: ["--no-sandbox", "--disable-gpu"],
    });
    try {
      for (const [width, colorScheme] of [
        [390, "light"],
        [1280, "dark"],
      ] as const) {
        const tab = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
        const trouble: string[] = [];
        tab.on("console", (message) => trouble.push(message.text()));
        tab.on("pageerror", (error) => trouble.push(error.message));
        tab.on("request", (request) => trouble.push(request.url()));
        await tab.setContent(page);
        expect(await tab.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
        const violations = await tab.evaluate(
          `(() => { ${axe}; return axe.run().then(({ violations }) => violations.map(({ id, nodes }) => id + ": " + nodes[0].html)); })()`,
        );
        expect(violations).toEqual([]);

        await tab.fill("#filter-text", "ferry");
        expect(await tab.textContent("#shown")).toBe("8 of 24 screens shown");
        await tab.fill("#filter-text", "");
        await tab.selectOption("#filter-check", "asLeft");
        await tab.selectOption("#filter-state", "error");
        const wanted = rows.filter(({ checks }) =>
          checks.some(({ check, state }) => check === "as-left" && state === "error"),
        );
        expect(await tab.textContent("#shown")).toBe(`${wanted.length} of 24 screens shown`);
        await tab.selectOption("#filter-state", "");
        await tab.click("#screens th:nth-child(2) button");
        await tab.click("#screens th:nth-child(2) button");
        expect(await tab.textContent("#screens tbody tr:first-child td")).toBe("Screen 8");
        expect(await tab.getAttribute("#screens th:nth-child(2)", "aria-sort")).toBe("descending");
        await tab.emulateMedia({ media: "print" });
        await tab.evaluate("dispatchEvent(new Event('beforeprint'))");
        expect(await tab.isVisible("#controls")).toBe(false);
        expect(await tab.locator("#screens th button").count()).toBe(0);
        expect(await tab.textContent("#screens th:nth-child(2)")).toBe("Screen");
        await tab.evaluate("dispatchEvent(new Event('afterprint'))");
        expect(await tab.locator("#screens th button").count()).toBe(AUDIT_CHECKS.length + 4);
        expect(trouble).toEqual([]);
        await tab.close();
      }
      const context = await browser.newContext({ javaScriptEnabled: false });
      const plain = await context.newPage();
      await plain.setContent(page);
      expect(await plain.isVisible("#controls")).toBe(false);
      expect(await plain.locator("#screens tbody tr").count()).toBe(24);
      expect(await plain.locator("#screens tbody tr:visible").count()).toBe(24);
    } finally {
      await browser.close();
    }
  }, 60_000);
});
