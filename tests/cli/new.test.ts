import { spawnSync } from "node:child_process";
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
import { readConfiguration } from "../../src/model/index.ts";
import { outside, requireOutside } from "../outside.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "../../samples");
let cwd: string;
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), "boothkeep-new-"));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const args = (description: string, ...more: string[]) => [
  "new",
  join(samples, `descriptions/${description}.json`),
  "--loudspeakers",
  join(samples, "loudspeakers/house-data.json"),
  ...more,
];

describe("boothkeep new", () => {
  it("writes a configuration that boothkeep validate has no error of", async () => {
    const { code, out, err } = await runCommand(args("willow-arcade-2", "--out", "first.json"), { cwd });
    expect([code, err]).toEqual([1, ""]);
    expect(out).toContain("Wrong crossovers destroy drivers.");
    expect(out).toContain("Test the emergency mute");
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(80);
    const written = readFileSync(join(cwd, "first.json"));
    expect(readConfiguration(written).document.screen.screenName).toBe("Screen 2");
    const profiles = join(samples, "profiles");
    const checked = await runCommand(
      ["validate", "first.json", "--severity", "error", "--profiles", profiles],
      {
        cwd,
      },
    );
    expect([checked.code, checked.err]).toEqual([0, ""]);
  });

  it("writes nothing over, and nothing when the room does not fit", async () => {
    const twice = await runCommand(args("willow-arcade-2", "--out", "first.json"), { cwd });
    expect(twice.code).toBe(2);
    expect(twice.err).toContain("nothing is ever written over");
    const other = await runCommand(
      args("willow-arcade-2", "--out", "other.json", "--profiles", join(samples, "maps")),
      { cwd },
    );
    expect(other.code).toBe(2);
    expect(existsSync(join(cwd, "other.json"))).toBe(false);
  });

  it("gives findings and open points as JSON", async () => {
    const { out } = await runCommand(args("willow-arcade-1", "--out", "one.json", "--json"), { cwd });
    const { written, findings, open } = JSON.parse(out);
    expect(written).toBe("one.json");
    expect(findings.map(({ severity }: { severity: string }) => severity)).not.toContain("error");
    expect(open.length).toBeGreaterThan(3);
  });

  it("says what to do without a description and without a terminal", async () => {
    const { code, err } = await runCommand(["new"], { cwd });
    expect(code).toBe(2);
    expect(err).toContain("questions need a terminal");
    expect(err.replace(/\s+/g, " ")).toContain(
      "boothkeep new DESCRIPTION.json --loudspeakers DATA.json --out NEW.json",
    );
    const half = await runCommand(["new", join(samples, "descriptions/willow-arcade-2.json")], { cwd });
    expect(half.code).toBe(2);
    expect(half.err.replace(/\s+/g, " ")).toContain("--loudspeakers DATA.json --out NEW.json");
  });
});

/** Answers for a small room; a text that stands alone in a line is what a person types. */
const SMALL_ROOM = [
  ...["Harbour Lights", "", "Screen 3", "", "212", "?", "99", "21,5"],
  ...["1", "T16-00417", "9.9.9", "", "", "1", "", ""],
  // 5.1, two-way, sub, surrounds
  ...["3", "", "2", "", "1", "", "", "2", "", "", "", ""],
  // distances: left, then back and again, the rest as offered
  ...["", "12.4", "12", "<", "12.1", "", "", "", ""],
  ...["", "yes", "no", "", "5", "", "", "", ""],
];

describe("boothkeep new, by questions", () => {
  const questions = (typed: readonly string[], folder: string, ...more: string[]) =>
    runCommand(
      [
        ...["new", "--loudspeakers", join(samples, "loudspeakers/house-data.json")],
        ...["--profiles", join(samples, "profiles"), ...more],
      ],
      { cwd: folder, typed },
    );
  const freshFolder = (name: string) => {
    const folder = join(cwd, name);
    mkdirSync(folder);
    return folder;
  };

  it("writes a description that builds the same configuration again", async () => {
    const folder = freshFolder("whole");
    const { code, out, err } = await questions([...SMALL_ROOM, "first.json"], folder);
    expect(err).toContain("Sound is slower in cold air");
    expect(err).toContain("From −20 to 60 °C.");
    expect(err).toContain("holds for >=1.0.0 <2.0.0 only");
    expect([code, readdirSync(folder).sort()]).toEqual([1, ["first.description.json", "first.json"]]);
    expect(out).toContain("Wrong crossovers destroy drivers.");
    for (const line of `${out}${err}`.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    const first = readFileSync(join(folder, "first.json"), "utf8");
    expect(readConfiguration(first).document.screen).toMatchObject({
      screenId: "screen-3",
      temperatureC: 21.5,
    });
    const again = await runCommand(
      [
        ...["new", "first.description.json", "--out", "again.json"],
        ...["--loudspeakers", join(samples, "loudspeakers/house-data.json")],
        ...["--profiles", join(samples, "profiles")],
      ],
      { cwd: folder },
    );
    expect([again.code, again.err]).toEqual([1, ""]);
    expect(readFileSync(join(folder, "again.json"), "utf8")).toBe(first);
  });

  it("writes nothing when it ends early, wherever that is", async () => {
    for (let answered = 0; answered <= SMALL_ROOM.length; answered += 9) {
      const folder = freshFolder(`early-${answered}`);
      const { code, err } = await questions(SMALL_ROOM.slice(0, answered), folder);
      expect(code).toBe(1);
      expect(err).toContain("Ended; nothing was written.");
      expect(readdirSync(folder)).toEqual([]);
    }
  });

  it("writes nothing over: a name that is taken is asked for again", async () => {
    const folder = freshFolder("taken");
    writeFileSync(join(folder, "first.description.json"), "{}");
    const { err } = await questions([...SMALL_ROOM, "first.json", "second.json"], folder);
    expect(err).toContain("'first.description.json' exists");
    expect(readFileSync(join(folder, "first.description.json"), "utf8")).toBe("{}");
    expect(existsSync(join(folder, "second.json"))).toBe(true);
  });

  it("asks for loudspeaker data until a file can be read", async () => {
    const folder = freshFolder("data");
    const data = join(samples, "loudspeakers/house-data.json");
    const { err } = await runCommand(["new", "--profiles", join(samples, "profiles")], {
      cwd: folder,
      typed: ["nothing.json", data, "Harbour Lights"],
    });
    expect(err).toContain("There is no file 'nothing.json'.");
    expect(err).toContain("Name of the site");
    expect(err).toContain("Key of the site");
  });
});

const python = outside("pty");

/** Types lines into a program on a pseudo-terminal, each when a prompt stands there; prints what the terminal showed. */
const AT_A_TERMINAL = `
import os, pty, select, sys, time
lines = sys.argv[1].split("|")
pid, fd = pty.fork()
if pid == 0:
    os.execvp(sys.argv[2], sys.argv[2:])
shown = b""
def until_quiet():
    global shown
    waited = 0.0
    while waited < 60:
        ready, _, _ = select.select([fd], [], [], 0.1)
        if ready:
            try:
                part = os.read(fd, 65536)
            except OSError:
                return False
            if not part:
                return False
            shown += part
        elif shown.endswith(b"> "):
            return True
        else:
            waited += 0.1
    return True
for line in lines:
    if not until_quiet():
        break
    os.write(fd, {"^C": b"\\x03", "^D": b"\\x04"}.get(line, line.encode() + b"\\n"))
    shown += b" "
until_quiet()
_, status = os.waitpid(pid, 0)
sys.stdout.buffer.write(shown)
print("\\nSTATUS", os.waitstatus_to_exitcode(status))
`;

describe.runIf(python)("boothkeep new on a terminal", () => {
  const main = join(import.meta.dirname, "../../cli/main.ts");
  const loader = import.meta.resolve("tsx");
  const atTerminal = (folder: string, typed: readonly string[]) =>
    spawnSync(
      requireOutside("pty"),
      [
        ...["-c", AT_A_TERMINAL, typed.join("|"), process.execPath, "--import", loader, main, "new"],
        ...["--loudspeakers", join(samples, "loudspeakers/house-data.json")],
        ...["--profiles", join(samples, "profiles")],
      ],
      { cwd: folder, encoding: "utf8" },
    ).stdout;

  it.each([
    ["Ctrl-C", "^C", "STATUS -2"],
    ["Ctrl-D", "^D", "STATUS 1"],
  ])(
    "%s leaves nothing half-written",
    (_name, key, status) => {
      const folder = join(cwd, `key-${key.slice(1)}`);
      mkdirSync(folder);
      const shown = atTerminal(folder, ["Harbour Lights", "", "Screen 3", key]);
      expect(shown).toContain("[harbour-lights] > ");
      expect(shown).toContain(status);
      expect(readdirSync(folder)).toEqual([]);
    },
    120_000,
  );

  it("goes from the first question to the files", () => {
    const folder = join(cwd, "terminal");
    mkdirSync(folder);
    const shown = atTerminal(folder, [...SMALL_ROOM, ""]);
    expect(shown).toContain("What was answered");
    expect(readdirSync(folder).sort()).toEqual([
      "harbour-lights-screen-3.description.json",
      "harbour-lights-screen-3.json",
    ]);
  }, 180_000);
});
