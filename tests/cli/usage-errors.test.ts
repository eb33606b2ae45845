import { tmpdir } from "node:os";
import { describe, expect, it } from "vitest";
import { runCommand } from "./run-command.ts";

describe("a command line that is wrong", () => {
  it.each([
    [["comapre"], "There is no command 'comapre'.", "Did you mean 'compare'?"],
    [["map", "chek"], "There is no command 'chek'.", "'boothkeep map --help'"],
    [["migrate", "a.json"], "The option '--to <profile>' is needed.", "'boothkeep migrate --help'"],
    [
      ["migrate", "a.json", "--to"],
      "The option '--to <profile>' needs a value.",
      "'boothkeep migrate --help'",
    ],
    [["compare", "a.json"], "The argument 'after' is needed.", "'boothkeep compare --help'"],
    [["validate", "--bogus"], "There is no option '--bogus' here.", "'boothkeep validate --help'"],
    [["history", "a", "b"], "Too many arguments for 'history'.", "'boothkeep history --help'"],
    [
      ["record", "a", "b.json", "--reason", "fun", "--by", "us"],
      "'fun' does not fit '--reason <reason>'. Allowed choices are as-found,",
      "'boothkeep record --help'",
    ],
  ])("%j says so and where help is", async (args, words, next) => {
    const { code, err } = await runCommand(args, { cwd: tmpdir() });
    const text = err.replace(/\n +/g, " ");
    expect(code).toBe(2);
    expect(text).toContain(`boothkeep: ${words}`);
    expect(text).toMatch(/\nNext: /);
    expect(text).toContain(next);
    expect(text).toContain("(usage.wrong, exit code 2)");
    for (const line of err.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("is told as JSON to a script", async () => {
    const { code, err } = await runCommand(["restore", "logbook", "--json"], { cwd: tmpdir() });
    expect(code).toBe(2);
    expect(JSON.parse(err)).toMatchObject({
      code: "usage.wrong",
      message: "The option '--site <id>' is needed.",
      next: "'boothkeep restore --help' explains the command.",
      exitCode: 2,
    });
  });
});
