import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  columnHeading,
  keyHeadings,
  plainHeading,
  SCREEN_HEADINGS,
} from "../../../src/exchange/tables/headings.ts";
import { tablesOf } from "../../../src/exchange/tables/index.ts";
import { LAYOUTS, TABLE_NAMES } from "../../../src/exchange/tables/layouts/index.ts";
import { levelsOf } from "../../../src/exchange/tables/rows.ts";
import { type Configuration, fieldAt } from "../../../src/model/index.ts";
import { schemaParts } from "../../diff/changes/schema-leaves.ts";

const { leaves } = schemaParts();
const sampleSchema: unknown = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "..", "..", "schemas", "configuration.schema.json"), "utf8"),
);
const columns = LAYOUTS.flatMap((layout) => layout.columns.map((column) => ({ layout, column })));
const path = ({ layout, column }: (typeof columns)[number]) =>
  `${layout.list}[].${column.member}${column.band === undefined ? "" : "[]"}`;

interface Branch {
  readonly properties: { readonly kind: { readonly const?: string; readonly enum?: readonly string[] } };
}

/** The kinds of all branches of a union of the schema: filters, or what an output feeds. */
function kindsOf(member: string): readonly string[] {
  const { $defs } = sampleSchema as {
    $defs: Record<string, Branch & { oneOf: readonly { $ref: string }[] }>;
  };
  return $defs[member === "feeds.kind" ? "Feed" : "EqBand"]!.oneOf.flatMap(({ $ref }) => {
    const { kind } = $defs[$ref.replace("#/$defs/", "")]!.properties;
    return kind.enum ?? [kind.const!];
  });
}

describe("the tables", () => {
  it("have names as listed", () => {
    expect(LAYOUTS.map(({ name }) => name)).toEqual([...TABLE_NAMES]);
  });

  it("have columns of fields that there are, each told apart from the others", () => {
    for (const one of columns) expect(fieldAt(path(one)), path(one)).toBeDefined();
    for (const layout of LAYOUTS) {
      const headings = [
        ...SCREEN_HEADINGS,
        ...keyHeadings(layout),
        ...(layout.shown ?? []).map(({ heading }) => heading),
        ...layout.columns.map((column) => columnHeading(layout, column)),
      ].map(plainHeading);
      expect(new Set(headings).size, layout.name).toBe(headings.length);
    }
  });

  it("take of a field what the schema takes", () => {
    for (const one of columns) {
      const leaf = leaves.get(path(one))!;
      const { takes } = one.column;
      if (takes.kind === "choice") {
        const values = /\.kind$/.test(path(one)) ? kindsOf(one.column.member) : (leaf.enum ?? []);
        expect([...takes.values].sort(), path(one)).toEqual([...values].sort());
      } else {
        const types = { number: ["number", "integer"], "yes-no": ["boolean"], text: ["string"] }[takes.kind];
        expect(types, path(one)).toContain(leaf.type);
      }
    }
  });

  it("offer what the columns take, and nothing that would be refused", () => {
    const configuration = JSON.parse(
      readFileSync(
        join(import.meta.dirname, "..", "..", "..", "samples/screens/lantern-mill/screen-1.json"),
        "utf8",
      ),
    ) as Configuration;
    for (const { name, headings, choices, rows } of tablesOf(configuration)) {
      expect(choices.length, name).toBe(headings.length);
      rows.forEach((row) => {
        row.forEach((cell, k) => {
          if (choices[k] !== undefined && cell !== undefined) expect(choices[k], headings[k]).toContain(cell);
        });
      });
    }
    const outputs = tablesOf(configuration, { only: ["outputs"] })[0]!;
    expect(outputs.choices[outputs.headings.indexOf("Polarity")]).toEqual(["normal", "inverted"]);
    expect(outputs.choices[outputs.headings.indexOf("High-pass family")]).toContain("none");
  });

  it("leave out nothing of their items but lists, FIR filters and keys", () => {
    const told = new Set(columns.map(path));
    const left = LAYOUTS.flatMap(({ name, list }) =>
      [...leaves.keys()]
        .filter((field) => field.startsWith(`${list}[].`) && !told.has(field))
        .filter((field) => !levelsOf(list).some(({ keyField }) => keyField === field))
        .filter((field) => !/\[\]/.test(field.slice(list.length + 3)))
        .map((field) => `${name}: ${field}`),
    );
    expect(left).toEqual(["outputs: outputs[].fir.enabled"]);
  });
});
