import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Context } from "../../cli/context.ts";
import { run } from "../../cli/program.ts";
import { EXIT_CODE } from "../../src/base/errors/index.ts";
import { runCommand } from "./run-command.ts";

const root = join(import.meta.dirname, "../..");

/** The command line as a process of its own, from its sources. */
function boothkeep(shell: string, env: Readonly<Record<string, string>> = {}) {
  const command = `"${process.execPath}" --import tsx cli/main.ts`;
  const { status, stdout, stderr } = spawnSync("bash", ["-c", shell.replaceAll("boothkeep", command)], {
    cwd: root,
    encoding: "utf8",
    env: { ...process.env, ...env },
  });
  return { status, stdout, stderr };
}

/** A context in which printing a result fails as nobody foresaw. */
async function defective(args: readonly string[], message: string) {
  let err = "";
  let code = 0;
  const context: Context = {
    ...(process as unknown as Pick<Context, "env">),
    out: () => {
      throw new TypeError(message);
    },
    err: (text) => {
      err += `${text}\n`;
    },
    redraw: () => {},
    input: process.stdin,
    now: () => new Date(0),
    env: {},
    cwd: root,
    columns: 80,
    color: false,
    live: false,
    interactive: false,
    exit: (value) => {
      code = Math.max(code, value);
    },
  };
  await run(args, context);
  return { err, code };
}

describe("exit codes", () => {
  it("of sysexits.h stand apart from those of a check", () => {
    // sysexits.h (4.3BSD): EX_SOFTWARE 70, EX_IOERR 74.
    expect(EXIT_CODE).toEqual({
      done: 0,
      found: 1,
      usage: 2,
      damaged: 3,
      decision: 4,
      defect: 70,
      output: 74,
    });
  });

  it("are explained where help is asked for", async () => {
    const { out } = await runCommand(["--help"], { cwd: root });
    expect(out).toMatch(/70 a defect in boothkeep itself, 74 the output was\s+closed or is full/);
  });

  it("a defect is 70 and one line that does not act", async () => {
    const { err, code } = await defective(["rules"], "boom\u009b2J\n    at secret.js:1:1");
    expect(code).toBe(70);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
    expect(err).toMatch(
      /^boothkeep: A defect in boothkeep itself: boom\[U\+009B\]2J \(defect\.unforeseen, exit code 70\)/,
    );
    expect(err).not.toContain("secret.js");
  });

  it("a defect is JSON where JSON was asked for", async () => {
    const { err, code } = await defective(["rules", "--json"], "boom");
    expect(code).toBe(70);
    expect(JSON.parse(err)).toMatchObject({ code: "defect.unforeseen", exitCode: 70 });
  });

  it("a defect outside of every command is 70 too, without a line of source", () => {
    // As soon as the command line is ready for it.
    const throwing =
      "data:text/javascript,process.on('newListener',(name)=>{if(name==='unhandledRejection')setTimeout(()=>{throw(new(Error)('boom'))},0)})";
    const { status, stderr } = boothkeep(`boothkeep rules --json`, {
      NODE_OPTIONS: `--import "${throwing}"`,
    });
    expect(status).toBe(70);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(JSON.parse(stderr)).toMatchObject({ code: "defect.unforeseen", exitCode: 70 });
  });

  it.runIf(existsSync("/dev/full"))("a full output is 74, in words and as JSON", () => {
    const words = boothkeep("boothkeep rules > /dev/full");
    expect([words.status, words.stdout]).toEqual([74, ""]);
    expect(words.stderr).toMatch(
      /^boothkeep: The output could not be written to its end: it is full\.\nNext: /,
    );
    const json = boothkeep("boothkeep rules --json > /dev/full");
    expect(json.status).toBe(74);
    expect(JSON.parse(json.stderr)).toMatchObject({ code: "output.closed", exitCode: 74 });
    expect(boothkeep("boothkeep rules > /dev/full 2> /dev/full").status).toBe(74);
  });

  it.skipIf(process.platform === "win32")("an output that its reader closed is 74", () => {
    const { stdout, stderr } = boothkeep("set -o pipefail; boothkeep rules | true; echo $?");
    expect(stdout.trim()).toBe("74");
    expect(stderr.replace(/\s+/g, " ")).toContain("whoever read it closed it");
  });
});
