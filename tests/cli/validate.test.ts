import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import type { Log } from "sarif";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createLogbook, folderStore, type KeptDocument, record } from "../../src/logbook/entries/index.ts";
import { writePack } from "../../src/logbook/pack/index.ts";
import { type CheckedScreen, edited, RULES } from "../../src/rules/index.ts";
import { screen, unit } from "../rules/rule-book-screen.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "validate-"));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const unsafe = edited(screen, [
  { kind: "set", at: "/outputs/center-lf/lowPass/frequencyHz", value: 250 },
  { kind: "set", at: "/outputs/center-mf/highPass/frequencyHz", value: 250 },
  { kind: "set", at: "/calibration/channels/C/levelDbC", value: 88 },
]);
const write = (name: string, content: unknown) =>
  writeFileSync(join(cwd, name), typeof content === "string" ? content : JSON.stringify(content, null, 1));
const validate = (...args: readonly string[]) => runCommand(["validate", ...args], { cwd });

interface JsonResult {
  readonly documents: readonly CheckedScreen[];
  readonly errors: readonly { readonly code: string; readonly place: { readonly file?: string } }[];
}
async function validateJson(...args: readonly string[]): Promise<JsonResult & { readonly code: number }> {
  const { out, code } = await validate(...args, "--json");
  return { ...(JSON.parse(out) as JsonResult), code };
}
const codesOf = ({ documents }: JsonResult) =>
  documents.map(({ findings }) => findings.map((finding) => finding.code));

beforeAll(async () => {
  mkdirSync(join(cwd, "profiles"));
  write("profiles/marl-24.json", unit);
  write("good.json", screen);
  write("unsafe.json", unsafe);
  write("broken.json", edited(screen, [{ kind: "set", at: "/outputs/left-hf/gian", value: 0 }]));
  write("notes.json", { todo: "call the exhibitor" });
  write("settings.json", {
    kind: "boothkeep.rule-settings",
    schemaVersion: "1.0.0",
    settings: [
      {
        id: "s1",
        kind: "limit",
        code: "calibration/level-off-reference",
        limit: "maxDb",
        value: 4,
        reason: "House level.",
      },
      {
        id: "s2",
        kind: "acknowledge",
        code: "crossover/high-pass-below-safe",
        by: "Chief engineer",
        reason: "New driver, data to come.",
      },
    ],
  });
  mkdirSync(join(cwd, "fleet"));
  for (const name of ["a.json", "b.json"]) cpSync(join(cwd, "good.json"), join(cwd, "fleet", name));
  write("fleet/b.json", edited(screen, [{ kind: "set", at: "/screen/screenId", value: "screen-2" }]));
  write("fleet/notes.json", { todo: "nothing" });
  const logbook = createLogbook(folderStore(join(cwd, "book")), {
    id: "0b4ff3a0-6c59-4e1d-9c1c-3c8a6f1f7d11",
    startedAt: "2026-03-01T10:00:00+01:00",
  });
  for (const configuration of [unsafe, screen]) {
    record(logbook, {
      configuration: configuration as unknown as KeptDocument,
      reason: "as-left",
      recordedAt: "2026-03-02T23:40:00+01:00",
      recordedBy: "Service team",
    });
  }
  const pack = await writePack({
    createdAt: "2026-03-02T23:40:00+01:00",
    createdBy: "Service team",
    configuration: unsafe as unknown as KeptDocument,
    profile: unit as unknown as KeptDocument,
    sheets: { text: "sheet", html: "<p>sheet</p>" },
    cautions: "Amplifiers off first.",
  });
  mkdirSync(join(cwd, "packs"));
  writeFileSync(join(cwd, "packs/handover.zip"), pack);
});

describe("boothkeep validate", () => {
  it("says that nothing was found, with exit code 0", async () => {
    const { out, err, code } = await validate("good.json");
    expect(code).toBe(0);
    expect(err).toBe("");
    expect(out).toContain("1 document: nothing found");
  });

  it("says place, words, remedy and source in 80 columns, with exit code 1", async () => {
    const { out, code } = await validate("unsafe.json");
    expect(code).toBe(1);
    expect(out).toContain("Model House, Screen 1");
    expect(out).toContain("Screen center, mf way, high-pass (error, protection)");
    expect(out).toContain("The high-pass lies at 250 Hz, 0.26 octaves below the safe 300 Hz.");
    expect(out).toContain("/outputs/3/highPass/frequencyHz");
    expect(out).toMatch(/To do: .*\n(.*\n)* {2}Source: /);
    expect(Math.max(...out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
  });

  it("shows what is asked for", async () => {
    expect(codesOf(await validateJson("unsafe.json", "--severity", "error"))).toEqual([
      ["crossover/high-pass-below-safe"],
    ]);
    const byFamily = await validateJson("unsafe.json", "--only", "calibration");
    expect(codesOf(byFamily)).toEqual([["calibration/level-off-reference"]]);
    expect((await validateJson("unsafe.json", "--only", "time,operation")).code).toBe(0);
    const wrong = await validate("unsafe.json", "--only", "crossovers");
    expect(wrong.code).toBe(2);
    expect(wrong.err).toContain("There is no rule or family 'crossovers'");
    expect((await validate("unsafe.json", "--severity", "loud")).code).toBe(2);
  });

  it("prints what settings did, and acknowledged findings with their reason", async () => {
    const { out, code } = await validate("unsafe.json", "--settings", "settings.json");
    expect(code).toBe(0);
    expect(out).toContain("1 document: nothing open, 1 acknowledged");
    expect(out).toMatch(/Acknowledged\s+by Chief engineer: New driver/);
    expect(out).toContain("maxDb is 4 in place of 1 dB: House level.");
  });

  it("lists faults of the shape as findings", async () => {
    const result = await validateJson("broken.json");
    expect(result.code).toBe(1);
    expect(result.documents[0]!.findings).toMatchObject([
      { code: "shape/unknown-field", place: { pointer: "/outputs/1/gian" }, numbers: { meant: "gainDb" } },
    ]);
  });

  it("checks folders, and screens against each other", async () => {
    const result = await validateJson("fleet", "--profiles", "profiles");
    expect(result.documents.map(({ name }) => name.replaceAll("\\", "/"))).toEqual([
      "fleet/a.json",
      "fleet/b.json",
    ]);
    expect(result.errors).toEqual([]);
    expect(codesOf(result)[1]).toEqual([
      "operation/site-address",
      "operation/site-hostname",
      "operation/same-serial",
      "operation/screen-name-twice",
    ]);
  });

  it("checks packs by the profile in them, and the latest entries of a logbook", async () => {
    const pack = await validateJson("packs/handover.zip", "--severity", "error");
    expect(codesOf(pack)).toEqual([["crossover/high-pass-below-safe"]]);
    expect(pack.documents[0]!.withProfile).toBe(true);
    const book = await validateJson("book");
    expect(book.documents).toHaveLength(1);
    expect(book.documents[0]!.name).toMatch(/^book model-house\/screen-1 [0-9a-f]{12}$/);
    expect(codesOf(book)).toEqual([[]]);
  });

  it("checks what is left of a damaged logbook, with exit code 3", async () => {
    cpSync(join(cwd, "book"), join(cwd, "damaged"), { recursive: true });
    const entries = join(cwd, "damaged/entries/model-house/screen-1");
    const [first] = readdirSync(entries).sort();
    writeFileSync(join(entries, first!), "not what it was");
    const { out, err, code } = await validate("damaged");
    expect(code).toBe(3);
    expect(err).toContain("logbook.damaged-records");
    expect(out).toContain("Check by the rule book");
  });

  it("goes on after what it cannot read, and says so", async () => {
    write("torn.json", '{"kind": "boothkeep.conf');
    writeFileSync(join(cwd, "torn.zip"), readFileSync(join(cwd, "packs/handover.zip")).subarray(0, 900));
    const result = await validateJson("torn.json", "missing.json", "unsafe.json");
    expect(result.code).toBe(2);
    expect(result.errors.map(({ code, place }) => [code, place.file])).toEqual([
      ["input.not-json", "torn.json"],
      ["input.not-found", "missing.json"],
    ]);
    expect(codesOf(result)[0]).toContain("crossover/high-pass-below-safe");
    const torn = await validate("torn.zip");
    expect(torn.code).toBeGreaterThanOrEqual(2);
    expect(torn.err).toContain("torn.zip");
    expect((await validate("notes.json")).err).toContain("document.wrong-kind");
  });

  it("never says that nothing was found where nothing was checked", async () => {
    const { out, err, code } = await validate("missing.json");
    expect(code).toBe(2);
    expect(err).toContain("input.not-found");
    expect(out).toContain("No document was checked.");
    expect(out).not.toMatch(/nothing found/i);
  });

  it("says when the unit's profile is not at hand, and checks the rest", async () => {
    mkdirSync(join(cwd, "empty"), { recursive: true });
    const { out, err, code } = await validate("unsafe.json", "--profiles", "empty");
    expect(code).toBe(2);
    expect(err).toContain("no unit profile 'marl-24'");
    expect(out).toContain("what the unit can do was not checked");
    expect(out).toContain("crossover/high-pass-below-safe");
  });
});

describe("SARIF", () => {
  const ajv = new Ajv2020({ strict: false });
  addFormats.default(ajv);
  // The schema of the OASIS Standard SARIF 2.1.0.
  const schema = JSON.parse(
    readFileSync(join(import.meta.dirname, "../reference/sarif-2.1.0.schema.json"), "utf8"),
  ) as object;

  it("fits its published schema and points into the text", async () => {
    const { out, code } = await validate(
      "unsafe.json",
      "broken.json",
      "--settings",
      "settings.json",
      "--sarif",
    );
    expect(code).toBe(1);
    const log = JSON.parse(out) as Log;
    const isValid = ajv.compile(schema);
    expect(isValid(log), JSON.stringify(isValid.errors)).toBe(true);
    const [run] = log.runs;
    expect(run!.tool.driver.rules).toHaveLength(RULES.length);
    const [acknowledged, unknown] = run!.results!;
    expect(acknowledged!.suppressions).toMatchObject([{ kind: "external", status: "accepted" }]);
    expect(acknowledged).toMatchObject({ ruleId: "crossover/high-pass-below-safe", level: "error" });
    const place = acknowledged!.locations![0]!.physicalLocation!;
    expect(place.artifactLocation!.uri).toBe("unsafe.json");
    const line = readFileSync(join(cwd, "unsafe.json"), "utf8").split("\n")[place.region!.startLine! - 1]!;
    expect(line.slice(place.region!.startColumn! - 1)).toMatch(/^250,?$/);
    expect(unknown).toMatchObject({ ruleId: "shape/unknown-field" });
    expect(run!.tool.driver.rules![acknowledged!.ruleIndex!]!.id).toBe("crossover/high-pass-below-safe");
  });
});

describe("boothkeep rules", () => {
  const rules = (...args: readonly string[]) => runCommand(["rules", ...args], { cwd });

  it("lists the book and explains a rule", async () => {
    const { out } = await rules();
    for (const { code } of RULES) expect(out).toContain(code);
    const one = await rules("crossover/no-high-pass");
    expect(one.out).toContain("Every mid and high way has a high-pass.");
    expect(one.out).toContain("Take out /outputs/center-hf/highPass.");
    expect(Math.max(...(out + one.out).split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
    expect((JSON.parse((await rules("time", "--json")).out) as unknown[]).length).toBeGreaterThan(5);
  });

  it("says what was probably meant", async () => {
    const { err, code } = await rules("crossover/no-highpass");
    expect(code).toBe(2);
    expect(err).toContain("Did you mean 'crossover/no-high-pass'?");
  });
});
