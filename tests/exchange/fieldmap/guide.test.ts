import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const folder = join(import.meta.dirname, "..", "..", "..", "schemas");
const guide = readFileSync(join(folder, "field-map-guide.md"), "utf8");
const { $defs: definitions } = JSON.parse(readFileSync(join(folder, "field-map.schema.json"), "utf8")) as {
  readonly $defs: Readonly<Record<string, { readonly properties?: Readonly<Record<string, Member>> }>>;
};

interface Member {
  readonly const?: string;
  readonly enum?: readonly string[];
}

/** Members that every kind has, or that speak for themselves. */
const PLAIN = [
  "quote",
  "comments",
  "sampleRateHz",
  "framesPerSecond",
  "temperatureC",
  "readOnly",
  "fixed",
  "mark",
  "ancestor",
];

describe("the guide to field maps", () => {
  it.each(Object.entries(definitions))("speaks of everything in %s", (_name, { properties = {} }) => {
    const words = Object.entries(properties).flatMap(([name, member]) => [
      ...(PLAIN.includes(name) ? [] : [name]),
      ...(member.const === undefined ? [] : [member.const]),
      ...(name === "unit" ? (member.enum ?? []) : []),
    ]);
    expect(words.filter((word) => !guide.includes(word))).toEqual([]);
  });
});
