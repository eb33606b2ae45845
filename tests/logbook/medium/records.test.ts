import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalText } from "../../../src/base/canonical/index.ts";
import {
  createLogbook,
  isRecord,
  memoryStore,
  REASONS,
  record,
  signEntry,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { editedLine, readEdits, readLine, wholeLine } from "../../../src/logbook/medium/records.ts";
import { keyPairFromSeed } from "../../../src/logbook/signing/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "../entries/support/documents.ts";

const schemas = join(import.meta.dirname, "../../../schemas");
const schema = (name: string) => JSON.parse(readFileSync(join(schemas, name), "utf8")) as { $id: string };
const ajv = new Ajv2020({ strict: false });
for (const name of ["entry.schema.json", "logbook.schema.json"]) ajv.addSchema(schema(name));
const logbookId = schema("logbook.schema.json").$id;
const validators = new Map([
  ["boothkeep.entry", ajv.getSchema(schema("entry.schema.json").$id)!],
  ["boothkeep.withdrawal", ajv.getSchema(`${logbookId}#/$defs/Withdrawal`)!],
  ["boothkeep.signature", ajv.getSchema(`${logbookId}#/$defs/EntrySignature`)!],
]);

const logbook = createLogbook(memoryStore(), NEW_LOGBOOK);
const { entry, id } = record(logbook, {
  configuration: configuration(),
  ...circumstances(),
  notes: "Commissioned.",
  attachments: [{ name: "export.xml", bytes: new Uint8Array(3) }],
});
const key = keyPairFromSeed(new Uint8Array(32));
const records: readonly Readonly<Record<string, unknown>>[] = [
  { ...entry },
  {
    ...withdraw(logbook, { id }, { reason: "Wrong.", recordedAt: entry.recordedAt, recordedBy: "north" })
      .withdrawal,
  },
  { ...signEntry(logbook, { id }, key) },
];

describe("isRecord", () => {
  it("takes what the logbook writes, as the schemas do", () => {
    for (const item of records) {
      expect(isRecord(item)).toBe(true);
      expect(validators.get(String(item.kind))!(item)).toBe(true);
    }
  });

  it("agrees with the schemas about every changed record", () => {
    const odd = fc.oneof(
      fc.constantFrom<unknown>(
        "",
        "x",
        "x".repeat(65),
        "é".repeat(64),
        "😀".repeat(64),
        "😀".repeat(65),
        0,
        1,
        1.5,
        -1,
        1e9,
        2e9,
      ),
      fc.constantFrom<unknown>(null, true, [], [1], {}, entry.configuration, [
        entry.configuration,
        entry.configuration,
      ]),
      fc.constantFrom<unknown>(
        "2026-02-30T24:00:00Z",
        "2026-12-31T23:59:59.5-12:30",
        "2026-13-01T00:00:00Z",
        "1.9.0",
        "2.0.0",
      ),
      fc.constantFrom<unknown>(
        { profileId: "a", serial: "b" },
        { profileId: "a" },
        { profileId: "a", serial: "b", more: 1 },
      ),
      fc.constantFrom<unknown>(...REASONS),
      fc.string(),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...records),
        fc.constantFrom("change", "drop", "add"),
        fc.nat(),
        odd,
        (item, way, at, value) => {
          const names = Object.keys(item).filter((name) => name !== "kind");
          const name = names[at % names.length]!;
          const changed: Record<string, unknown> = { ...item };
          if (way === "drop") delete changed[name];
          else changed[way === "add" ? `${name}X` : name] = value;
          expect(isRecord(changed)).toBe(validators.get(String(item.kind))!(changed));
        },
      ),
      { numRuns: 2000 },
    );
  });

  it("lists the reasons of the schema", () => {
    const { $defs } = schema("entry.schema.json") as unknown as { $defs: { Reason: { enum: string[] } } };
    expect(REASONS).toEqual($defs.Reason.enum);
  });
});

describe("readLine", () => {
  const whole = wholeLine(canonicalText(configuration()));
  const edited = editedLine(entry.configuration, entry.configuration, {
    keep: [1, 3],
    drop: [1, 0],
    add: ["1", ',"b":2'],
  });

  it("reads what the logbook writes, as the schema has it", () => {
    for (const [line, name] of [
      [whole, "WholeConfiguration"],
      [edited, "EditedConfiguration"],
    ] as const) {
      expect(readLine(line)?.text).toBe(line);
      expect(ajv.getSchema(`${logbookId}#/$defs/${name}`)!(JSON.parse(line))).toBe(true);
    }
    expect(readLine(edited)).toMatchObject({ item: { kind: "edited", sha256: entry.configuration } });
    expect(readLine(whole)).toMatchObject({ item: { kind: "whole", sha256: entry.configuration } });
    expect(readEdits(edited)).toEqual({
      base: entry.configuration.slice(0, 16),
      edits: { keep: [1, 3], drop: [1, 0], add: ["1", ',"b":2'] },
    });
    expect(readLine(canonicalText(entry))).toMatchObject({ kind: "record", item: { id, record: entry } });
  });

  it("refuses what is not known or of wrong shape", () => {
    for (const line of [
      "",
      "null",
      "[]",
      "{",
      canonicalText({ ...entry, more: 1 }),
      canonicalText({ kind: "boothkeep.something" }),
      canonicalText({ kind: "constructor" }),
      '{"configuration":1,"kind":"boothkeep.whole"}',
    ]) {
      expect(readLine(line), line).toBeUndefined();
    }
  });

  it("reads no edits of wrong shape", () => {
    for (const [from, to] of [
      ['"keep":[1,3]', '"keep":[1]'],
      ['"keep":[1,3]', '"keep":[1,-3]'],
      ['"drop":[1,0]', '"drop":null'],
      ['"base":"', '"base":"x'],
      ['"keep"', '"more":1,"keep"'],
    ] as const) {
      expect(readEdits(edited.replace(from, to)), to).toBeUndefined();
    }
    expect(readEdits("{")).toBeUndefined();
  });
});
