import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "../../samples");
const profiles = join(samples, "profiles");
const screen = join(samples, "screens/lantern-mill/screen-1.json");
const SCREEN = ["--site", "lantern-mill", "--screen", "screen-1"];

let cwd: string;
const run = (...args: string[]) => runCommand(args, { cwd });

/** The words of the code on a sheet that was printed as JSON. */
function codeOf(json: string): string {
  const { blocks } = JSON.parse(json) as { blocks: { kind: string; text: string }[] };
  return blocks.find(({ kind }) => kind === "scan-code")!.text;
}

beforeAll(async () => {
  cwd = mkdtempSync(join(tmpdir(), "boothkeep-papers-"));
  await run("begin", "logbook");
  await run("record", "logbook", screen, "--reason", "as-left", "--by", "North team");
  const packed = await run("pack", "logbook", ...SCREEN, "--out", "pack.zip", "--profiles", profiles);
  expect(packed.code).toBe(0);
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

describe("boothkeep entry-sheet", () => {
  it("prints the sheet of a file, an entry and a pack; the settings are the same", async () => {
    const file = await run("entry-sheet", screen, "--json");
    const entry = await run("entry-sheet", "logbook", ...SCREEN, "--profiles", profiles, "--json");
    // A pack brings its unit profile along.
    const pack = await run("entry-sheet", "pack.zip", "--json");
    const settings = [file, entry, pack].map(({ out }) => {
      const { blocks } = JSON.parse(out) as { blocks: { kind: string }[] };
      return blocks.slice(blocks.findIndex(({ kind }) => kind === "heading"));
    });
    expect(settings[1]).toEqual(settings[0]);
    expect(settings[2]).toEqual(settings[0]);
    expect(codeOf(entry.out)).toMatch(
      /^boothkeep paper 1: lantern-mill\/screen-1 entry 1 [0-9a-f]{16} settings [0-9a-f]{64}$/,
    );
    expect(codeOf(pack.out)).toBe(codeOf(entry.out));
    expect(codeOf(file.out)).toBe(codeOf(entry.out).replace(/ entry 1 [0-9a-f]{16}/, ""));
  });

  it("writes a page into a new file, and text to the terminal", async () => {
    const page = await run("entry-sheet", screen, "--out", "sheet.html");
    expect([page.code, page.err]).toEqual([0, "Written to sheet.html.\n"]);
    expect(readFileSync(join(cwd, "sheet.html"), "utf8")).toMatch(/^<!DOCTYPE html>/);
    const { out } = await run("entry-sheet", screen);
    expect(out).toContain("Wrong crossovers destroy drivers.");
    expect(out).toContain("[ ] High-pass: ");
  });

  it("says what to do when the source is not told", async () => {
    const { code, err } = await run("entry-sheet", "logbook");
    expect(code).toBe(2);
    expect(err).toContain("--site ID --screen ID");
    expect((await run("entry-sheet", screen, "--site", "x")).code).toBe(2);
  });
});

describe("boothkeep match-paper", () => {
  it("finds the entry from a scan of its entry sheet or handover sheet", async () => {
    for (const sheet of ["entry-sheet", "handover-sheet"]) {
      const { out } = await run(sheet, "logbook", ...SCREEN, "--profiles", profiles, "--json");
      const found = await run("match-paper", "logbook", codeOf(out));
      expect(found.code).toBe(0);
      expect(found.out).toContain("Paper and entry agree.");
      expect(found.out).toContain("Nothing with other settings was recorded of this screen since.");
      const inPack = await run("match-paper", "pack.zip", ...codeOf(out).split(" "));
      expect(inPack.code).toBe(0);
    }
  });

  it("tells a paper that is out of date, one that contradicts, and one of unknown settings", async () => {
    const words = codeOf(
      (await run("entry-sheet", "logbook", ...SCREEN, "--profiles", profiles, "--json")).out,
    );
    const forged = words.replace(/settings ./, (start) =>
      start.endsWith("0") ? "settings 1" : "settings 0",
    );
    const contradicts = await run("match-paper", "logbook", forged);
    expect([contradicts.code, contradicts.out.includes("do NOT agree")]).toEqual([1, true]);

    const changed = JSON.parse(readFileSync(screen, "utf8"));
    changed.channels[0].levelDb -= 1;
    writeFileSync(join(cwd, "changed.json"), JSON.stringify(changed));
    const ofFile = codeOf((await run("entry-sheet", "changed.json", "--profiles", profiles, "--json")).out);
    const unknown = await run("match-paper", "logbook", ofFile);
    expect([unknown.code, unknown.out.includes("Nothing recorded of this screen")]).toEqual([1, true]);

    await run("record", "logbook", "changed.json", "--reason", "as-left", "--by", "North team");
    const old = await run("match-paper", "logbook", words);
    expect(old.code).toBe(1);
    expect(old.out).toContain("Out of date");
    expect(old.out).toContain("entry 2, as left");
    expect((await run("match-paper", "logbook", ofFile)).code).toBe(0);
    const { out } = await run("match-paper", "logbook", words, "--json");
    expect(JSON.parse(out)).toMatchObject({ verdict: "agrees", laterChanged: [{ entry: { number: 2 } }] });
  });

  it("refuses other words, and no words at all", async () => {
    expect((await run("match-paper", "logbook", "hello")).err).toContain("Scan again");
    expect((await run("match-paper", "logbook")).code).toBe(2);
  });
});
