import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect } from "vitest";

const folder = join(import.meta.dirname, "..", "golden");

/** Compares a text with the file of that name in tests/golden; with UPDATE_GOLDEN=1 the file is written instead. */
export function expectGolden(name: string, text: string): void {
  const file = join(folder, name);
  if (process.env.UPDATE_GOLDEN === "1") {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
  expect(text).toBe(readFileSync(file, "utf8"));
}
