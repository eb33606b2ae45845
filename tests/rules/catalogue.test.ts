import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  familyOf,
  RULE_FAMILIES,
  RULES,
  validateConfiguration,
  validateSite,
} from "../../src/rules/index.ts";
import { playExample, screen, unit } from "./rule-book-screen.ts";

describe("rule book", () => {
  it("is silent on its own screen", () => {
    expect(validateConfiguration(screen, { profile: unit, today: "2026-11-25" })).toEqual([]);
    expect(validateConfiguration(screen)).toEqual([]);
    expect(validateSite([screen])).toEqual([]);
  });

  it("has one file a rule, named by its code, and each in the catalogue", () => {
    const folder = join(import.meta.dirname, "../../src/rules");
    const files = RULE_FAMILIES.flatMap((family) =>
      readdirSync(join(folder, family)).map((file) => `${family}/${file.replace(/\.ts$/, "")}`),
    );
    expect(RULES.map((rule) => rule.code).sort()).toEqual(files.sort());
    expect(RULES.filter((rule) => familyOf(rule) !== "shape").length).toBeGreaterThanOrEqual(60);
  });

  it("words every rule in whole sentences, with a source", () => {
    for (const { code, title, why, remedy, source } of RULES) {
      for (const text of [title, why, remedy]) expect(text, code).toMatch(/^[A-Z0-9].*[.]$/s);
      expect(source.length, code).toBeGreaterThan(10);
      expect(code).toMatch(/^[a-z]+\/[a-z0-9-]+$/);
    }
  });

  it.each(RULES.map((rule) => [rule.code, rule] as const))(
    "%s: its example breaks it and nothing else",
    (code, rule) => {
      const { broken, mended } = playExample(rule);
      expect([...new Set(broken.map((finding) => finding.code))]).toEqual([code]);
      expect(mended).toEqual([]);
      for (const finding of broken) {
        expect(finding.kind).toBe(rule.kind);
        expect(finding.words).toMatch(/^.+[.?]$/s);
        expect(finding.words).not.toMatch(/undefined|NaN|null|\[object/);
        expect(JSON.parse(JSON.stringify(finding))).toEqual(finding);
      }
    },
  );
});
