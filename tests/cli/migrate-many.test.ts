import { spawn } from "node:child_process";
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
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Configuration, Decisions, UnitProfile } from "../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../migrate/plan/example.ts";
import { runCommand } from "./run-command.ts";

const cwd = mkdtempSync(join(tmpdir(), "migrate-many-"));
const inFolder = (...path: readonly string[]) => join(cwd, ...path);
const read = (...path: readonly string[]) => readFileSync(inFolder(...path), "utf8");
const write = (name: string, document: unknown) => writeFileSync(inFolder(name), JSON.stringify(document));

/** Coarser in nothing but the EQ's steps, so that every equalizer has to be fitted and yet nothing is heard. */
const TO: UnitProfile = {
  ...OLD_UNIT,
  id: NEW_UNIT.id,
  label: NEW_UNIT.label,
  firmwareRange: NEW_UNIT.firmwareRange,
  equalizations: {
    ...OLD_UNIT.equalizations,
    parametric: {
      ...OLD_UNIT.equalizations.parametric!,
      frequencyHz: { kind: "log", min: 20, max: 20000, referenceHz: 1000, perOctave: 24 },
    },
  },
};

/** Screens of a class have equal equalizers and levels of their own. */
function screenOf(index: number, classes: number): Configuration {
  const set = SCREEN.equalizations[0]!;
  const frequencyHz = 60 + 11 * (index % classes);
  return {
    ...SCREEN,
    screen: { ...SCREEN.screen, screenId: `s${index}` },
    channels: SCREEN.channels.map((channel) => ({ ...channel, levelDb: -(index % 9) / 10 })),
    equalizations: [
      {
        ...set,
        channels: [
          { channelId: "L", parametric: [{ id: "b1", kind: "peaking", frequencyHz, gainDb: -3.5, q: 2 }] },
        ],
      },
    ],
  };
}

beforeAll(() => {
  for (const folder of ["profiles", "screens", "fleet"]) mkdirSync(inFolder(folder));
  write("profiles/old-8.json", OLD_UNIT);
  write("profiles/new-8.json", TO);
  write("decisions.json", decisionsWith(ANSWERS.slice(0, 2)));
  write("classes.json", {
    kind: "boothkeep.decision-classes",
    schemaVersion: "1.0.0",
    classes: [{ name: "small", screens: ["quarry/a", "quarry/b"], decisions: "decisions.json" }],
  });
  for (const screenId of ["a", "b", "c"]) {
    write(`screens/${screenId}.json`, { ...SCREEN, screen: { ...SCREEN.screen, screenId } });
  }
  for (let index = 0; index < 30; index += 1) write(`fleet/${index}.json`, screenOf(index, 5));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

describe("boothkeep migrate, many screens", () => {
  const migrate = (...args: readonly string[]) => runCommand(["migrate", ...args, "--to", "new-8"], { cwd });
  const three = ["screens/a.json", "screens/b.json", "screens/c.json"];

  it("refuses a class that names screens without a slash, which would serve none", async () => {
    writeFileSync(
      inFolder("odd-classes.json"),
      JSON.stringify({
        kind: "boothkeep.decision-classes",
        schemaVersion: "1.0.0",
        classes: [{ name: "small", screens: ["quarry.a"], decisions: "decisions.json" }],
      }),
    );
    const { code, err } = await migrate(...three, "--classes", "odd-classes.json", "--into", "odd");
    expect(code).toBe(2);
    expect(err).toContain("'quarry.a'");
    expect(err).toContain("site/screen");
  });

  it("answers by class, leaves open what nobody answered, and can be taken up again", async () => {
    const run = () => migrate(...three, "--classes", "classes.json", "--into", "planned");
    const first = await run();
    expect(first.code).toBe(4);
    expect(first.out).toMatch(/planned and proven\s+2/);
    expect(first.out).toMatch(/quarry\.c: decisions missing: open: unit\/serial, unit\/firmware/);
    expect(Math.max(...first.out.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(80);
    const files = [
      "all.open.decisions.json",
      "quarry.a.json",
      "quarry.a.plan.json",
      "quarry.b.json",
      "quarry.b.plan.json",
      "work",
    ];
    expect(readdirSync(inFolder("planned")).sort()).toEqual(files);
    const before = files.filter((name) => name !== "work").map((name) => read("planned", name));
    const second = await run();
    expect(second.out).toMatch(/done by an earlier run\s+2/);
    expect(second.code).toBe(4);
    expect(readdirSync(inFolder("planned")).sort()).toEqual(files);
    expect(files.filter((name) => name !== "work").map((name) => read("planned", name))).toEqual(before);
  });

  it("gives one file to fill in for all screens, and goes on with it", async () => {
    const first = await migrate(...three, "--into", "filled");
    expect(first.out).toContain("filled/all.open.decisions.json");
    const open = JSON.parse(read("filled", "all.open.decisions.json")) as Decisions;
    expect(open.answers.map(({ questionId }) => questionId)).toEqual(["unit/serial", "unit/firmware"]);
    const answers = open.answers.map((answer) => ({ ...answer, optionId: "not-known-yet" }));
    write("filled/all.open.decisions.json", { ...open, answers });
    const second = await migrate(
      ...[...three, "--into", "filled", "--decisions", "filled/all.open.decisions.json"],
      ...["--sheets", "papers"],
    );
    expect(second.code).toBe(0);
    expect(second.out).toMatch(/planned and proven\s+3/);
    expect(readdirSync(inFolder("papers", "quarry.a"))).toContain("re-patch-sheet.html");
  });

  it("goes on when one screen cannot be read, one is refused, and one is of a unit that nobody knows", async () => {
    writeFileSync(inFolder("screens", "broken.json"), "{");
    write("screens/elsewhere.json", { ...SCREEN, unit: { ...SCREEN.unit, profileId: "unheard-of" } });
    const [lf, ...others] = SCREEN.outputs;
    write("screens/refused.json", {
      ...SCREEN,
      screen: { ...SCREEN.screen, screenId: "refused" },
      outputs: [{ ...lf!, connectorId: "out-99" }, ...others],
    });
    const bad = ["broken", "elsewhere", "refused"].map((name) => `screens/${name}.json`);
    const { out, code } = await migrate(
      ...[...bad, "screens/a.json", "--decisions", "decisions.json", "--into", "again"],
    );
    expect(code).toBe(2);
    expect(out).toMatch(/failed\s+3/);
    expect(out).toContain("screens/broken.json");
    expect(out).toMatch(/no unit profile\s+'unheard-of'/);
    expect(out).toContain("'out-99'");
    expect(existsSync(inFolder("again", "quarry.a.json"))).toBe(true);
  });

  it("refuses two files of one screen", async () => {
    const { out, code } = await migrate(
      ...["screens/a.json", "screens/a.json", "--decisions", "decisions.json", "--into", "twice"],
    );
    expect(code).toBe(2);
    expect(out).toContain("of the same screen");
  });

  it("says so when a screen is there from other input, and writes nothing over it", async () => {
    const run = (decisions: string) =>
      migrate("screens/a.json", "--decisions", decisions, "--into", "changed");
    await run("decisions.json");
    const before = read("changed", "quarry.a.plan.json");
    write("other.json", decisionsWith([ANSWERS[0]!, { ...ANSWERS[1]!, text: "3.2.0" }]));
    const { out, code } = await run("other.json");
    expect(code).toBe(2);
    expect(out).toMatch(/there from other input\s+1/);
    expect(read("changed", "quarry.a.plan.json")).toBe(before);
  });

  it("leaves alone what other answers have no part in", async () => {
    const run = (decisions: string) =>
      migrate("screens/a.json", "--decisions", decisions, "--into", "extended");
    await run("decisions.json");
    const more = {
      questionId: "channels/Lss",
      optionId: "leave-out",
      ifAsked: true,
      note: "For other screens.",
    };
    write("more.json", decisionsWith([more, ...ANSWERS.slice(0, 2)]));
    const { out, code } = await run("more.json");
    expect(code).toBe(0);
    expect(out).toMatch(/done by an earlier run\s+1/);
  });

  it("says so when the decisions file itself cannot be read, before any screen", async () => {
    writeFileSync(inFolder("torn.json"), "{");
    const { err, out, code } = await migrate(...three, "--decisions", "torn.json", "--into", "torn");
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain("torn.json");
  });
});

describe("boothkeep migrate, killed in the middle", () => {
  const files = Array.from({ length: 30 }, (_, index) => `fleet/${index}.json`);
  const args = (into: string) => [
    ...["migrate", ...files, "--to", "new-8"],
    ...["--decisions", "decisions.json", "--into", into],
  ];
  const lines = (into: string, name: string) =>
    existsSync(inFolder(into, "work", name)) ? read(into, "work", name).split("\n").slice(0, -1) : [];

  it("fits and writes nothing twice when it is started again, and ends with the same bytes", async () => {
    const whole = await runCommand(args("whole"), { cwd });
    expect(whole.code).toBe(0);
    expect(lines("whole", "equalizers.jsonl")).toHaveLength(5);
    expect(lines("whole", "screens.jsonl")).toHaveLength(30);

    // Once while equalizers are fitted, once while screens are written.
    await killedWhen(args("killed"), () => lines("killed", "equalizers.jsonl").length >= 2);
    const fitted = lines("killed", "equalizers.jsonl");
    await killedWhen(args("killed"), () => lines("killed", "screens.jsonl").length >= 8);
    const done = lines("killed", "screens.jsonl");
    expect(done.length).toBeLessThan(30);
    expect(lines("killed", "equalizers.jsonl").slice(0, fitted.length)).toEqual(fitted);

    const last = await runCommand(args("killed"), { cwd });
    expect(last.code).toBe(0);
    expect(last.out).toMatch(new RegExp(`done by an earlier run\\s+${done.length}`));
    expect(last.out).toMatch(/planned and proven\s+30/);
    expect(lines("killed", "screens.jsonl").slice(0, done.length)).toEqual(done);
    const keys = lines("killed", "equalizers.jsonl").map((line) => (JSON.parse(line) as { key: string }).key);
    expect(new Set(keys).size).toBe(5);
    expect(keys).toHaveLength(5);
    const names = readdirSync(inFolder("whole")).sort();
    expect(readdirSync(inFolder("killed")).sort()).toEqual(names);
    for (const name of names.filter((file) => file !== "work")) {
      expect(read("killed", name), name).toBe(read("whole", name));
    }
  }, 120_000);

  it("passes over a line that was cut off, and over an unfinished file", async () => {
    await runCommand(args("cut"), { cwd });
    const record = read("cut", "work", "screens.jsonl");
    writeFileSync(inFolder("cut", "work", "screens.jsonl"), record.slice(0, -40));
    writeFileSync(inFolder("cut", "~quarry.s29.plan.json.999999999.tmp"), "{");
    const again = await runCommand(args("cut"), { cwd });
    expect(again.code).toBe(0);
    expect(again.out).toMatch(/done by an earlier run\s+29/);
    expect(readdirSync(inFolder("cut")).filter((name) => name.startsWith("~"))).toEqual([]);
    expect(lines("cut", "screens.jsonl")).toHaveLength(31);
  });
});

const MAIN = join(import.meta.dirname, "..", "..", "cli", "main.ts");
const TSX = pathToFileURL(
  join(import.meta.dirname, "..", "..", "node_modules", "tsx", "dist", "loader.mjs"),
).href;

/** Runs the command as a process of its own and kills it, without warning, as soon as something is so. */
async function killedWhen(args: readonly string[], isSo: () => boolean): Promise<void> {
  const child = spawn(process.execPath, ["--import", TSX, MAIN, ...args], {
    cwd,
    stdio: "ignore",
  });
  const ended = new Promise((resolve) => child.once("exit", resolve));
  const watch = setInterval(() => {
    if (isSo()) child.kill("SIGKILL");
  }, 2);
  await ended;
  clearInterval(watch);
  expect(child.signalCode).toBe("SIGKILL");
}
