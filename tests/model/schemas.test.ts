import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

type Schema = Readonly<Record<string, unknown>>;

/** Every schema of a value below a schema, with its place. */
function* valuesIn(schema: unknown, at = ""): Iterable<readonly [string, Schema]> {
  if (typeof schema !== "object" || schema === null) return;
  if ("type" in schema && at !== "") yield [at, schema as Schema];
  for (const [name, part] of Object.entries(schema)) {
    if (name === "properties" || name === "$defs") {
      for (const [key, value] of Object.entries(part as object)) yield* valuesIn(value, `${at}/${key}`);
    } else if (name === "items") yield* valuesIn(part, `${at}[]`);
  }
}

const hasOne = (schema: Schema, ...names: readonly string[]) => names.some((name) => name in schema);

/** What an editor needs to complete and to check a value by itself. */
function missing(schema: Schema): string[] {
  const lacks: string[] = [];
  const { type } = schema;
  if (!("description" in schema)) lacks.push("description");
  if (type === "object" && "properties" in schema && schema.additionalProperties !== false)
    lacks.push("closed");
  if (type === "array" && !("maxItems" in schema)) lacks.push("maxItems");
  if (hasOne(schema, "enum", "const")) return lacks;
  if (type === "number" || type === "integer") {
    if (!hasOne(schema, "minimum", "exclusiveMinimum")) lacks.push("minimum");
    if (!hasOne(schema, "maximum", "exclusiveMaximum")) lacks.push("maximum");
  }
  if (type === "string" && !hasOne(schema, "pattern", "maxLength", "format")) lacks.push("length");
  if (type !== "object" && type !== "array" && type !== "boolean" && !("examples" in schema))
    lacks.push("examples");
  return lacks;
}

describe("schemas that people write by hand", () => {
  it.each(["configuration", "unit-profile", "rule-settings"])(
    "%s has words, limits and an example for every field",
    (name) => {
      const file = join(import.meta.dirname, `../../schemas/${name}.schema.json`);
      const schema = JSON.parse(readFileSync(file, "utf8")) as Schema;
      const values = [...valuesIn(schema)];
      expect(values.length).toBeGreaterThan(10);
      expect(values.flatMap(([at, value]) => missing(value).map((what) => `${at}: ${what}`))).toEqual([]);
      expect(schema.$id).toBe(`urn:boothkeep:schema:${name}:${String(schema["x-version"])}`);
    },
  );
});
