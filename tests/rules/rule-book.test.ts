import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { renderMarkdown, ruleBookReport } from "../../src/report/index.ts";
import { RULES } from "../../src/rules/index.ts";

const file = join(import.meta.dirname, "../../src/rules/RULES.md");

describe("RULES.md", () => {
  it("is made from the rules (UPDATE_GOLDEN=1 makes it again)", () => {
    const text = renderMarkdown(ruleBookReport(RULES));
    if (process.env.UPDATE_GOLDEN === "1") writeFileSync(file, text);
    expect(readFileSync(file, "utf8")).toBe(text);
    for (const { code } of RULES) expect(text).toContain(code);
  });
});
