import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Command } from "commander";
import { describe, expect, it } from "vitest";
import { addCommands } from "../../cli/commands/index.ts";
import type { Context } from "../../cli/context.ts";

const readme = readFileSync(join(import.meta.dirname, "../../README.md"), "utf8");
const shown = [...readme.replaceAll(/\\\n\s*/g, "").matchAll(/^ {4,}boothkeep (.+)$/gm)].map((match) =>
  (match[1]!.match(/"[^"]*"|\S+/g) ?? []).map((word) => word.replaceAll('"', "")),
);

describe("the README", () => {
  const program = new Command("boothkeep");
  addCommands(program, {} as Context);

  it("shows the job by hand", () => {
    expect(shown.length).toBeGreaterThan(10);
  });

  it.each(shown.map((words) => [words.join(" "), words] as const))("shows what there is: %s", (_, words) => {
    const command = program.commands.find((candidate) => candidate.name() === words[0]);
    expect(command).toBeDefined();
    const options = words.filter((word) => word.startsWith("--"));
    const known = command!.options.map((option) => option.long);
    for (const option of options) expect(known).toContain(option);
    const required = command!.options.filter((option) => option.mandatory).map((option) => option.long);
    for (const option of required) expect(options).toContain(option);
    const needed = command!.registeredArguments.filter((argument) => argument.required).length;
    expect(words.length - 1).toBeGreaterThanOrEqual(needed);
  });
});
