import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalHash } from "../../src/base/canonical/index.ts";
import type { Plan } from "../../src/migrate/plan/index.ts";
import type { Configuration, Proof } from "../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../migrate/plan/example.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "migration-papers-"));
const inFolder = (...path: readonly string[]) => join(cwd, ...path);
const read = (...name: readonly string[]) => readFileSync(inFolder(...name), "utf8");
const migrate = (...args: readonly string[]) =>
  runCommand(["migrate", "left.json", "--to", "new-8", ...args], { cwd });
const namesIn = (folder: string) =>
  existsSync(inFolder(folder)) ? readdirSync(inFolder(folder)).sort() : [];

beforeAll(() => {
  mkdirSync(inFolder("profiles"));
  const to = { ...OLD_UNIT, id: NEW_UNIT.id, label: NEW_UNIT.label, firmwareRange: NEW_UNIT.firmwareRange };
  const files: Readonly<Record<string, unknown>> = {
    "profiles/old-8.json": OLD_UNIT,
    "profiles/new-8.json": to,
    "profiles/coarse-8.json": { ...NEW_UNIT, id: "coarse-8" },
    "left.json": SCREEN,
    "answers.json": decisionsWith(ANSWERS.slice(0, 2)),
    "coarse.json": { ...decisionsWith(ANSWERS), toProfileId: "coarse-8" },
  };
  for (const [name, document] of Object.entries(files))
    writeFileSync(inFolder(name), JSON.stringify(document));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

/** CSS Syntax Level 3: a backslash, hexadecimal digits, one space. */
const withoutCssEscapes = (text: string) =>
  text.replaceAll(/\\([0-9a-f]{1,6}) ?/gi, (_, digits: string) =>
    String.fromCodePoint(Number.parseInt(digits, 16)),
  );

const FINAL = ["entry-sheet", "plan-report", "proof", "re-patch-sheet"].flatMap((name) => [
  `${name}.html`,
  `${name}.txt`,
]);

describe("papers while questions are open", () => {
  it("say DRAFT in their names and on every page, and carry no code", async () => {
    const { code, out } = await migrate("--out", "new.json", "--sheets", "open");
    expect(code).toBe(4);
    expect(out).toContain("The papers are drafts");
    expect(existsSync(inFolder("new.json"))).toBe(false);
    const names = namesIn("open");
    expect(names).toHaveLength(FINAL.length);
    for (const name of names) expect(name).toMatch(/^DRAFT-[0-9a-f]{8}-/);
    for (const name of names) {
      const text = read("open", name);
      if (name.endsWith(".txt")) {
        const lines = text.split("\n");
        for (let k = 0; k < lines.length; k += 42) {
          expect(lines.slice(k, k + 42).join("\n")).toContain("DRAFT, not for use: 2 questions are open.");
        }
      } else {
        expect(text).toContain("<title>DRAFT: ");
        expect(text).toContain('<p class="draft">DRAFT, not for use: 2 questions are open.</p>');
        // A margin box of every printed page, and a mark that Chromium repeats on each.
        expect(withoutCssEscapes(text)).toMatch(/@page \{.*@top-left \{ content: "DRAFT, not for use/s);
        expect(text).toContain('class="draft-mark"');
        expect(text).not.toContain('class="code"');
      }
    }
  });

  it("stay recognizable beside the final set, which is written into the same folder", async () => {
    await migrate("--out", "twice.json", "--sheets", "both");
    const { code } = await migrate("--decisions", "answers.json", "--out", "twice.json", "--sheets", "both");
    expect(code).toBe(0);
    const names = namesIn("both");
    expect(names.filter((name) => !name.startsWith("DRAFT-"))).toEqual(FINAL);
    for (const name of FINAL) expect(read("both", name)).not.toContain("DRAFT");
    expect(names.filter((name) => name.startsWith("DRAFT-"))).toHaveLength(FINAL.length);
  });

  it("are drafts too where the proof finds a difference", async () => {
    const args = ["--to", "coarse-8", "--decisions", "coarse.json", "--sheets", "differing"];
    const { code, out } = await runCommand(["migrate", "left.json", ...args], { cwd });
    expect(code).toBe(1);
    expect(namesIn("differing").every((name) => name.startsWith("DRAFT-"))).toBe(true);
    expect(out).toMatch(/differing\/DRAFT-[0-9a-f]{8}-proof\.txt/);
  });

  it("can be made again: equal ones are left as they are", async () => {
    expect((await migrate("--sheets", "again")).code).toBe(4);
    const before = namesIn("again");
    expect((await migrate("--sheets", "again")).code).toBe(4);
    expect(namesIn("again")).toEqual(before);
  });
});

describe("the final set", () => {
  it("is refused as a whole, before anything is fitted, where one of its files is there", async () => {
    for (const taken of FINAL) {
      const folder = `taken-${taken}`;
      mkdirSync(inFolder(folder));
      writeFileSync(inFolder(folder, taken), "mine");
      const { code, err, out } = await migrate(
        ...["--decisions", "answers.json", "--out", `${folder}.json`, "--plan", `${folder}-plan.json`],
        ...["--sheets", folder],
      );
      expect([code, out]).toEqual([2, ""]);
      expect(err).toContain("output.exists");
      expect(namesIn(folder)).toEqual([taken]);
      expect(existsSync(inFolder(`${folder}.json`))).toBe(false);
      expect(existsSync(inFolder(`${folder}-plan.json`))).toBe(false);
    }
  });

  it.each([
    ["the configuration", ["--out", "is-a-file/new.json", "--sheets", "nowhere"]],
    ["the papers", ["--out", "no-new.json", "--sheets", "is-a-file"]],
  ])("is refused as a whole where there can be no folder for %s", async (_, args) => {
    writeFileSync(inFolder("is-a-file"), "mine");
    const { code } = await migrate("--decisions", "answers.json", ...args);
    expect(code).toBe(2);
    expect(existsSync(inFolder("no-new.json"))).toBe(false);
    expect(namesIn("nowhere")).toEqual([]);
  });

  it("is bound by one hash: of the plan, which contains the configuration, and the proof", async () => {
    const { out } = await migrate(
      ...["--decisions", "answers.json", "--out", "bound.json", "--sheets", "bound", "--json"],
    );
    const result = JSON.parse(out) as { plan: Plan; proof: Proof; setSha256: string };
    expect(result.setSha256).toBe(canonicalHash([result.plan, result.proof]));
    const configuration = JSON.parse(read("bound.json")) as Configuration;
    expect(result.plan.configuration).toEqual(configuration);
    const grouped = (sha256: string) => sha256.match(/.{16}/g)!.join(" ");
    for (const name of FINAL) {
      expect(read("bound", name), name).toContain(grouped(canonicalHash(configuration)));
      expect(read("bound", name), name).toContain(grouped(result.setSha256));
      if (name.endsWith(".html")) {
        const short = [canonicalHash(configuration), result.setSha256].map((sha256) => sha256.slice(0, 16));
        expect(withoutCssEscapes(read("bound", name))).toContain(`settings ${short[0]}, set ${short[1]}`);
      }
    }
  });
});
