import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { JSONPathEnvironment } from "json-p3";
import { describe, expect, it } from "vitest";

/** The JSONPath Compliance Test Suite (github.com/jsonpath-standard), as the package jsonpath-rfc9535 carries it. */
interface SuiteCase {
  readonly name: string;
  readonly selector: string;
  readonly document?: unknown;
  readonly result?: unknown;
  readonly results?: readonly unknown[];
  readonly invalid_selector?: boolean;
}

const home = dirname(createRequire(import.meta.url).resolve("jsonpath-rfc9535/package.json"));
const file = join(home, "src", "__tests__", "jsonpath-compliance-test-suite", "cts.json");
const { tests } = JSON.parse(readFileSync(file, "utf8")) as { readonly tests: readonly SuiteCase[] };
const environment = new JSONPathEnvironment({ strict: true, maxRecursionDepth: 200 });

describe("RFC 9535, by its compliance suite", () => {
  it("is the whole suite", () => expect(tests.length).toBeGreaterThan(600));

  it("refuses every selector that is none", () => {
    for (const { name, selector } of tests.filter((test) => test.invalid_selector)) {
      expect(() => environment.compile(selector), name).toThrow();
    }
  });

  it("finds what the suite says", () => {
    for (const test of tests.filter(({ invalid_selector }) => !invalid_selector)) {
      const found = environment.query(test.selector, test.document as never).values();
      expect(test.results ?? [test.result], test.name).toContainEqual(found);
    }
  });
});
