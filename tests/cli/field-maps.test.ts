import {
  copyFileSync,
  ftruncateSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { Configuration } from "../../src/model/index.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");
const cwd = mkdtempSync(join(tmpdir(), "field-maps-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const xml = join(samples, "exports", "lantern-mill-1.xml");
const map = join(samples, "maps", "skarn-30.json");
const boothkeep = (...args: readonly string[]) => runCommand(args, { cwd });
/** Names of files are never cut, so that they can be copied: how deep the checkout is buried does not count. */
const fitsTheScreen = (text: string) => {
  const lines = text.replaceAll(samples, "samples").split("\n");
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
};

describe("boothkeep read and write", () => {
  it("reads an export with its account, and writes it back to the same bytes", async () => {
    const read = await boothkeep("read", "--map", map, xml, "--out", "as-found.json");
    expect(read).toMatchObject({ code: 0, err: "" });
    expect(read.out).toMatch(/unknown +0/);
    const written = await boothkeep(
      "write",
      "as-found.json",
      "--map",
      map,
      "--original",
      xml,
      "--out",
      "same.xml",
    );
    expect(written.code).toBe(0);
    expect(written.out).toContain("amplifiers off or muted");
    expect(readFileSync(join(cwd, "same.xml")).equals(readFileSync(xml))).toBe(true);
    fitsTheScreen(written.out);
  });

  it("writes only what differs and says so; refuses what the export would round", async () => {
    const configuration = JSON.parse(
      readFileSync(join(samples, "screens", "lantern-mill", "screen-1.json"), "utf8"),
    ) as Configuration;
    const [first, ...others] = configuration.outputs;
    const changed = (gainDb: number) =>
      JSON.stringify({ ...configuration, outputs: [{ ...first!, gainDb }, ...others] });
    writeFileSync(join(cwd, "louder.json"), changed(-8.1));
    writeFileSync(join(cwd, "between.json"), changed(-8.14));
    const fine = await boothkeep(
      "write",
      "louder.json",
      "--map",
      map,
      "--original",
      xml,
      "--out",
      "louder.xml",
      "--json",
    );
    expect((JSON.parse(fine.out) as { changed: unknown }).changed).toEqual([
      { pointer: "/skarn/outputs/output/0/@gain", line: expect.any(Number), before: "-92", after: "-81" },
    ]);
    const refused = await boothkeep(
      "write",
      "between.json",
      "--map",
      map,
      "--original",
      xml,
      "--out",
      "no.xml",
    );
    expect(refused.code).toBe(2);
    expect(refused.err).toContain("export.cannot-hold");
    expect(() => readFileSync(join(cwd, "no.xml"))).toThrow();
    const accepted = await boothkeep(
      "write",
      "between.json",
      "--map",
      map,
      "--original",
      xml,
      "--out",
      "yes.xml",
      "--accept-losses",
    );
    expect(accepted.code).toBe(1);
    expect(accepted.out).toMatch(/rounded by the\s+export/);
    fitsTheScreen(accepted.out);
  });

  it("reads a folder; what cannot be read does not stop the rest", async () => {
    mkdirSync(join(cwd, "exports"));
    copyFileSync(xml, join(cwd, "exports", "a.xml"));
    copyFileSync(xml, join(cwd, "exports", "c.xml"));
    writeFileSync(join(cwd, "exports", "b.xml"), "<!DOCTYPE x [<!ENTITY a 'b'>]><x>&a;</x>");
    const { code, out } = await boothkeep("read", "--map", map, "exports", "--out", "read");
    expect(code).toBe(2);
    expect(out).toContain("Exports read into read: 2 of 3");
    expect(out).toMatch(/exports.b\.xml: The export has a document type \(DOCTYPE\)/);
    expect(readFileSync(join(cwd, "read", "a.xml.json"), "utf8")).toContain("boothkeep.configuration");
    fitsTheScreen(out);
  });

  it("goes on where it was interrupted, and writes nothing over", async () => {
    const folder = join(cwd, "again");
    mkdirSync(folder);
    writeFileSync(join(folder, "~a.xml.json.999999999.tmp"), "{");
    writeFileSync(join(folder, "c.xml.json"), "of a person");
    const { code, out } = await boothkeep("read", "--map", map, "exports", "--out", "again");
    expect(code).toBe(2);
    expect(out).toMatch(/c\.xml: .*nothing is ever\s+written over/);
    expect(readFileSync(join(folder, "c.xml.json"), "utf8")).toBe("of a person");
    const first = readFileSync(join(folder, "a.xml.json"));
    rmSync(join(folder, "c.xml.json"));
    rmSync(join(cwd, "exports", "b.xml"));
    const again = await boothkeep("read", "--map", map, "exports", "--out", "again");
    expect([again.code, again.out.trim()]).toEqual([0, "Exports read into again: 2 of 2"]);
    expect(readFileSync(join(folder, "a.xml.json")).equals(first)).toBe(true);
    expect(readdirSync(folder).sort()).toEqual(["a.xml.json", "c.xml.json"]);
  });

  it("takes several exports by name, but not two of one name", async () => {
    const a = join("exports", "a.xml");
    const both = await boothkeep("read", "--map", map, a, xml, "--out", "several", "--json");
    const { exports: told } = JSON.parse(both.out) as { exports: { counts: { values: number } }[] };
    expect(told.map(({ counts }) => counts.values)).toEqual([4254, 4254]);
    const double = await boothkeep("read", "--map", map, a, a, "--out", "double");
    expect([double.code, double.err]).toEqual([
      2,
      expect.stringContaining("Two exports have the name 'a.xml'"),
    ]);
  });

  it("refuses a file of 100 MB before reading it", async () => {
    const large = join(cwd, "large.xml");
    ftruncateSync(openSync(large, "w"), 100 * 1024 * 1024);
    const before = process.memoryUsage().arrayBuffers;
    const { code, err } = await boothkeep("read", "--map", map, large);
    expect([code, err]).toEqual([2, expect.stringContaining("at most 8 MiB")]);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(16 * 1024 * 1024);
  });
});

describe("boothkeep map", () => {
  it("checks a map on samples", async () => {
    const { code, out } = await boothkeep("map", "check", map, xml);
    expect(code).toBe(0);
    expect(out).toContain("4254 values");
    expect(out).not.toMatch(/^ *(?:error|warning)/m);
    fitsTheScreen(out);
  });

  it("ends with 1 where a map knows too little", async () => {
    const lesser = JSON.parse(readFileSync(map, "utf8")) as { ignore: unknown[] };
    writeFileSync(join(cwd, "lesser.json"), JSON.stringify({ ...lesser, ignore: [] }));
    const { code, out } = await boothkeep(
      "map",
      "check",
      "lesser.json",
      xml,
      "--profiles",
      join(samples, "profiles"),
    );
    expect(code).toBe(1);
    expect(out).toContain("unknown-value");
  });

  it("begins a map", async () => {
    const { code, out } = await boothkeep("map", "start", xml, "--out", "begun.json");
    expect(code).toBe(0);
    expect(out).toContain("outputs[].filters from /skarn/outputs/output/*/filter/*: 58 items");
    expect(out).toContain("tenths of a dB");
    const all = await boothkeep("map", "start", xml, "--out", "begun-too.json", "--all");
    expect(all.out).toContain("unit.serial from /skarn/@serial");
    fitsTheScreen(all.out);
    expect((await boothkeep("validate", "begun.json")).code).toBe(0);
    fitsTheScreen(out);
  });
});
