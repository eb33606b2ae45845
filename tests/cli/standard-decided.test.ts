import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { afterAll, describe, expect, it } from "vitest";
import { runCommand } from "./run-command.ts";

/* A round in which something stays by decision, and what drift and audit make of it afterwards. */

const samples = join(import.meta.dirname, "..", "..", "samples");
const cwd = mkdtempSync(join(tmpdir(), "boothkeep-decided-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

cpSync(join(samples, "profiles"), join(cwd, "profiles"), { recursive: true });
const SCREEN = JSON.parse(readFileSync(join(samples, "screens/lantern-mill/screen-4.json"), "utf8"));
const run = (...args: string[]) => runCommand(args, { cwd });
const write = (name: string, document: unknown) => writeFileSync(join(cwd, name), JSON.stringify(document));
const read = (name: string) => JSON.parse(readFileSync(join(cwd, name), "utf8"));

// Screen 1 lowers the program by less and screen 2 follows already; both units count fader marks their own way.
const screens = ["screen-1", "screen-2"].map((screenId, index) => {
  const screen = structuredClone(SCREEN);
  Object.assign(screen.screen, { screenId, screenName: screenId });
  Object.assign(screen.unit, { serial: `S-${index}` });
  screen.network.hostname = `sp-${screenId}`;
  screen.network.interfaces[0].address = `192.0.2.${30 + index}`;
  screen.operation.paging.programDuckDb = index === 0 ? 12 : 20;
  screen.operation.faderMark = 44;
  return screen;
});

const standard = (version: string, duckDb: number) => ({
  kind: "boothkeep.standard",
  schemaVersion: "1.0.0",
  id: "house",
  version,
  title: "House",
  issuedOn: "2026-10-01",
  issuedBy: "Sound team",
  screens: {},
  faderScale: [
    { mark: 0, levelDb: -90 },
    { mark: 40, levelDb: -20 },
    { mark: 70, levelDb: 0 },
  ],
  lines: [
    { place: "operation/paging/programDuckDb", hold: "exactly", value: duckDb },
    { place: "operation/faderMark", hold: "exactly", value: 68 },
  ],
});

async function apply(version: string, answers: readonly object[]): Promise<string> {
  write("decisions.json", {
    kind: "boothkeep.standard-decisions",
    schemaVersion: "1.0.0",
    standardId: "house",
    toVersion: version,
    answers,
  });
  const args = ["standard", "propose", `house-${version}.json`, "logbook", "--out", "out"];
  const { out, err } = await run(...args, "--decisions", "decisions.json", "--json");
  if (out === "") throw new Error(err);
  return JSON.parse(out).folder;
}

async function confirm(folder: string, version: string, screenId: string, readBack: string) {
  const proposal = `${folder}/lantern-mill/${screenId}.proposal.json`;
  const by = ["--standard", `house-${version}.json`, "--by", "Service team"];
  return run("standard", "confirm", "logbook", proposal, readBack, ...by, "--at", "2026-11-02T10:00:00Z");
}

async function drift(version: string) {
  const result = await run("drift", `house-${version}.json`, "logbook", "--json");
  return { ...JSON.parse(result.out), code: result.code };
}

const DUCK = "operation/paging/programDuckDb";

describe("a deviation that stays by decision", () => {
  let folder = "";

  it("is drift until the decision is recorded", async () => {
    write("house-1.0.0.json", standard("1.0.0", 20));
    write("house-1.1.0.json", standard("1.1.0", 20));
    write("house-2.0.0.json", standard("2.0.0", 24));
    await run("begin", "logbook");
    for (const screen of screens) {
      write("screen.json", screen);
      const at = ["--at", "2026-10-20T10:00:00Z"];
      await run("record", "logbook", "screen.json", "--reason", "as-left", "--by", "Alignment team", ...at);
    }
    folder = await apply("1.0.0", [{ place: DUCK, choose: "screen", note: "Agreed with the fire brigade." }]);
    expect(await drift("1.0.0")).toMatchObject({ code: 1, following: 1, byDecision: 0, accepted: [] });
  });

  it("screens with nothing to load are confirmed too, if they are still what was looked at", async () => {
    for (const [index, screen] of screens.entries()) {
      write(`read-${index + 1}.json`, screen);
      expect(read(`${folder}/lantern-mill/screen-${index + 1}.proposal.json`).outcome).toBe("follows");
    }
    write("other.json", { ...screens[1], presets: screens[1].presets.slice(1) });
    expect((await confirm(folder, "1.0.0", "screen-2", "other.json")).code).toBe(1);
    expect((await confirm(folder, "1.0.0", "screen-1", "read-1.json")).code).toBe(0);
    const second = await confirm(folder, "1.0.0", "screen-2", "read-2.json");
    expect(second.out).toContain("follows house 1.0.0");
  });

  it("then is told apart, with the entry, in text, CSV, JSON and the audit", async () => {
    const found = await drift("1.0.0");
    expect(found).toMatchObject({ code: 0, following: 1, byDecision: 1, findings: [] });
    const [accepted] = found.accepted;
    expect(accepted).toMatchObject({ place: DUCK, standard: 20 });
    const [{ screen, accepted: entry }] = accepted.screens;
    expect(found.names[screen]).toBe("lantern-mill/screen-1");
    expect(found.entries[entry]).toMatchObject({ screen, number: 2, recordedBy: "Service team" });
    const { out } = await run("drift", "house-1.0.0.json", "logbook", "--csv", "drift.csv");
    expect(out).toContain("1 more but for what was");
    expect(out).toContain("Otherwise by decision");
    expect(out.replaceAll(/\s+/g, " ")).toContain(
      "accepted by decision of 2026-11-02 (entry 2, Service team)",
    );
    expect(readFileSync(join(cwd, "drift.csv"), "utf8")).toMatch(/12,-8,dB.*2026-11-02T10:00:00Z,2\r\n/);
    const { audit } = JSON.parse(
      (await run("audit", "logbook", "--standard", "house-1.0.0.json", "--json")).out,
    );
    const check = audit.screens[0].checks.find(({ check: name }: { check: string }) => name === "standard");
    expect(check).toMatchObject({ state: "good", words: expect.stringContaining("Otherwise by decision") });
  });

  it("stays decided in a later version that does not touch the place", async () => {
    const next = await apply("1.1.0", []);
    expect(await drift("1.1.0")).toMatchObject({ code: 1, accepted: [] });
    expect((await confirm(next, "1.1.0", "screen-1", "read-1.json")).code).toBe(0);
    expect(await drift("1.1.0")).toMatchObject({ code: 0, byDecision: 1, findings: [] });
  });

  it("is drift again once the screen is otherwise than as decided; since when counts marks by their level", async () => {
    const changed = structuredClone(screens[0]);
    changed.operation.paging.programDuckDb = 6;
    changed.operation.faderMark = 50;
    write("screen.json", changed);
    const at = ["--at", "2026-11-20T10:00:00Z"];
    await run("record", "logbook", "screen.json", "--reason", "routine", "--by", "Projection", ...at);
    const { findings, accepted, entries } = await drift("1.1.0");
    expect(accepted).toEqual([]);
    expect(findings.map(({ place }: { place: string }) => place)).toEqual(["operation/faderMark", DUCK]);
    // As left the mark was the standard's level on the unit's own scale.
    const [mark] = findings[0].screens;
    expect(mark.fromTheStart).toBeUndefined();
    expect(entries[mark.since]).toMatchObject({ number: 4, recordedBy: "Projection" });
    const [duck] = findings[1].screens;
    expect(duck.fromTheStart).toBe(true);
  });

  it("is asked about again where a later version changes the place", async () => {
    const next = await apply("2.0.0", []);
    const { steps } = read(`${next}/lantern-mill/screen-1.proposal.json`);
    expect(steps.find(({ place }: { place: string }) => place === DUCK).outcome).toBe("asks");
  });
});

describe("versions", () => {
  it("that are older than what a screen follows, or were changed since, are told", async () => {
    const older = await run("standard", "propose", "house-1.0.0.json", "logbook", "--out", "older");
    expect(older.err.replaceAll(/\s+/g, " ")).toContain(
      "lantern-mill/screen-1 follows a later version than house 1.0.0: this round takes back what came after it.",
    );
    write("house-edited.json", standard("1.1.0", 22));
    const edited = await run("standard", "propose", "house-edited.json", "logbook", "--out", "edited");
    expect(edited.err.replaceAll(/\s+/g, " ")).toContain("needs a new version");
    const same = await run("standard", "propose", "house-1.1.0.json", "logbook", "--out", "same");
    expect(same.err).not.toContain("version");
  });
});

describe("a screen of which a record is damaged", () => {
  const damage = (screenId: string) => {
    const folder = join(cwd, "logbook", "entries", "lantern-mill", screenId);
    const [file] = readdirSync(folder)
      .map((name) => join(folder, name))
      .sort((a, b) => numberIn(b) - numberIn(a));
    const bytes = readFileSync(file!);
    bytes[bytes.length >> 1]! ^= 0xff;
    writeFileSync(file!, bytes);
  };
  const numberIn = (file: string) =>
    Number(/"number":([0-9]+)/.exec(gunzipSync(readFileSync(file)).toString("utf8"))?.[1] ?? 0);

  it("is never taken for what an earlier entry says, where the damaged one may be the last", async () => {
    damage("screen-2");
    const { findings, unread, screens: held, code } = await drift("1.1.0");
    expect(code).toBe(3);
    expect(held).toBe(1);
    expect(findings.length).toBeGreaterThan(0);
    expect(unread).toEqual([
      {
        name: "lantern-mill/screen-2",
        words: expect.stringContaining("The last entry may be among it"),
        isDamaged: true,
      },
    ]);
    const args = ["standard", "propose", "house-1.1.0.json", "logbook", "--out", "damaged"];
    const { err, code: proposed } = await run(...args);
    expect(err).toMatch(/The last entry\s+may be among it/);
    expect(proposed).toBe(3);
  });
});
