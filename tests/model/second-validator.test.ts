import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Schema, Validator } from "@cfworker/json-schema";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inspectDocument } from "../../src/model/index.ts";
import { runs } from "../runs.ts";
import { mutations } from "./mutation.ts";

/*
 * The precompiled validators against an independent one, which reads the published schema files as they are and knows
 * nothing of "discriminator".
 */
const root = join(import.meta.dirname, "../..");
const json = (file: string): unknown => JSON.parse(readFileSync(join(root, file), "utf8"));

const schemas = new Map(
  ["configuration", "unit-profile", "rule-settings"].map((name) => [
    `boothkeep.${name}`,
    new Validator(json(`schemas/${name}.schema.json`) as Schema, "2020-12", true),
  ]),
);

function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".json"))
    .map((name) => `${folder}/${name.replaceAll("\\", "/")}`);
}

/** Exports are the units' own documents, in encodings of their own. */
const samples = filesBelow("samples")
  .filter((file) => !file.startsWith("samples/exports/"))
  .map((file) => ({ file, document: json(file) as { kind?: string; schemaVersion?: string } }))
  .filter(({ document }) => document.schemaVersion === presentVersion(document.kind));

function presentVersion(kind = ""): string | undefined {
  if (!schemas.has(kind)) return undefined;
  const schema = json(`schemas/${kind.replace("boothkeep.", "")}.schema.json`);
  return (schema as { "x-version": string })["x-version"];
}

/** Without the doubles of ids and ranges that run backwards, which are no matter of the schema. */
function isValidHere(document: unknown): boolean {
  const { problems } = inspectDocument(JSON.stringify(document)).shape;
  return problems.every(({ fault, words }) => fault === "duplicate-id" || words.includes("runs backwards"));
}

describe("a second validator", () => {
  it("agrees that every sample is valid", () => {
    expect(samples.length).toBeGreaterThanOrEqual(10);
    for (const { file, document } of samples) {
      expect(schemas.get(document.kind!)!.validate(document).valid, file).toBe(true);
      expect(isValidHere(document), file).toBe(true);
    }
  });

  it.each(["samples/rule-book/screen.json", "samples/rule-book/profiles/marl-24.json"])(
    "agrees on changed copies of %s",
    (file) => {
      const document = json(file) as { kind: string };
      const validator = schemas.get(document.kind)!;
      const verdicts = { valid: 0, invalid: 0 };
      fc.assert(
        fc.property(mutations(document), ({ document: changed }) => {
          const { kind, schemaVersion } = changed as { kind?: unknown; schemaVersion?: unknown };
          fc.pre(kind === document.kind && schemaVersion === presentVersion(document.kind));
          const { valid } = validator.validate(JSON.parse(JSON.stringify(changed)));
          expect(isValidHere(changed)).toBe(valid);
          verdicts[valid ? "valid" : "invalid"] += 1;
        }),
        { numRuns: runs(250) },
      );
      expect(Math.min(verdicts.valid, verdicts.invalid)).toBeGreaterThan(10);
    },
  );
});
