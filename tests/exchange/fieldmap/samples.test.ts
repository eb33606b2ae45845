import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkFieldMap, readExport, writeExport } from "../../../src/exchange/fieldmap/index.ts";
import { type Configuration, fieldAt, readDocument } from "../../../src/model/index.ts";
import { gridCount, gridValue, limitedNumbers } from "../../../src/profile/index.ts";
import { runs } from "../../runs.ts";
import { SAMPLE_EXPORTS } from "./sample-maps.ts";

type Draft = { -readonly [K in keyof Configuration]: Configuration[K] };

describe.each(SAMPLE_EXPORTS)("$name", ({ bytes, loaded, configuration, profile }) => {
  it("has a map that fits its schema", () => {
    expect(readDocument(JSON.stringify(loaded.map), { expect: "boothkeep.field-map" }).document).toEqual(
      loaded.map,
    );
  });

  it("reads as just the sample screen", () => {
    expect(readExport(bytes, loaded).configuration).toEqual(configuration);
  });

  it("accounts for every value and every field", () => {
    const { account } = readExport(bytes, loaded);
    const { counts, ignored, unknown, fields } = account;
    expect(unknown).toEqual([]);
    expect(counts.used + counts.ignored).toBe(counts.values);
    expect(ignored.reduce((sum, { values }) => sum + values, 0)).toBe(counts.ignored);
    expect(counts.ignored).toBeGreaterThan(0);
    expect(fields.filter(({ origin }) => origin === "base" || origin === "map")).toEqual([]);
    expect(fields.filter(({ origin }) => origin === "boothkeep").map(({ pointer }) => pointer)).toEqual([
      "/kind",
      "/schemaVersion",
    ]);
    for (const { pointer } of fields) expect(fieldAt(pathOf(pointer)), pointer).toBeDefined();
  });

  it("writes back to the same bytes", () => {
    const written = writeExport(configuration, bytes, loaded);
    expect(written.changed).toEqual([]);
    expect(written.left).toEqual([]);
    expect(Buffer.from(written.bytes).equals(bytes)).toBe(true);
  });

  it("has a map in which a check finds nothing but untested rules", () => {
    const check = checkFieldMap(loaded, [{ name: "sample", bytes }], { profile });
    expect(check.findings.filter(({ code }) => code !== "not-reached")).toEqual([]);
  });

  it("takes random settings of the unit, writes only what differs, and gives them back", () => {
    const limited = limitedNumbers(configuration, profile).filter(
      ({ unit, grid }) => unit === "dB" && gridCount(grid) > 1,
    );
    expect(limited.length).toBeGreaterThan(100);
    const change = fc.record({ at: fc.nat(limited.length - 1), step: fc.nat() });
    fc.assert(
      fc.property(fc.uniqueArray(change, { maxLength: 12, selector: ({ at }) => at }), (changes) => {
        const draft = structuredClone(configuration) as Draft;
        let differing = 0;
        for (const { at, step } of changes) {
          const { path, value, grid } = limited[at]!;
          const next = gridValue(grid, step % gridCount(grid));
          if (next !== value) differing += 1;
          put(draft, path, next);
        }
        const written = writeExport(draft, bytes, loaded, { acceptLosses: true });
        const back = readExport(written.bytes, loaded).configuration;
        for (const { pointer, wanted } of written.left)
          put(back as Draft, pathParts(pointer), wanted as number);
        expect(back).toEqual(draft);
        expect(written.changed.length).toBeLessThanOrEqual(differing);
        expect(linesThatDiffer(bytes, written.bytes)).toBeLessThanOrEqual(differing);
      }),
      { numRuns: runs(4), endOnFailure: true },
    );
  });

  it("switches, silences and renames where the export has the place", () => {
    const draft = structuredClone(configuration) as unknown as {
      outputs: { mute: boolean; label: string; polarity: string; highPass?: unknown }[];
    };
    const out = draft.outputs.find(({ highPass }) => highPass !== undefined)!;
    out.mute = !out.mute;
    out.label = "New name";
    out.polarity = out.polarity === "normal" ? "inverted" : "normal";
    delete out.highPass;
    const written = writeExport(draft as unknown as Configuration, bytes, loaded);
    expect(written.changed).toHaveLength(6);
    expect(readExport(written.bytes, loaded).configuration).toEqual(draft);
  });

  it("tells the fields for which the map has no rule", () => {
    const other = structuredClone(configuration) as unknown as { unit: Record<string, unknown> };
    expect(writeExport(configuration, bytes, loaded).beyond).toEqual([]);
    other.unit.notes = "The map has no place for notes of the unit.";
    expect(writeExport(other as unknown as Configuration, bytes, loaded).beyond).toEqual(["/unit/notes"]);
  });

  it("refuses what it has no room for, and writes nothing", () => {
    const other = structuredClone(configuration) as unknown as { screen: { geometry?: object } };
    delete other.screen.geometry;
    expect(() => writeExport(other as unknown as Configuration, bytes, loaded)).toThrow(
      expect.objectContaining({ code: "export.cannot-hold" }),
    );
  });
});

function pathOf(pointer: string): string {
  return pointer.slice(1).replace(/\/\d+/g, "[]").replaceAll("/", ".");
}

function pathParts(pointer: string): readonly (string | number)[] {
  return pointer
    .split("/")
    .slice(1)
    .map((part) => (/^\d+$/.test(part) ? Number(part) : part));
}

function put(document: object, path: readonly (string | number)[], value: number): void {
  let at = document as Record<string | number, unknown>;
  for (const part of path.slice(0, -1)) at = at[part] as Record<string | number, unknown>;
  at[path.at(-1)!] = value;
}

function linesThatDiffer(before: Uint8Array, after: Uint8Array): number {
  const [a, b] = [before, after].map((bytes) => Buffer.from(bytes).toString("latin1").split("\n"));
  expect(b).toHaveLength(a!.length);
  return a!.filter((line, i) => line !== b![i]).length;
}
