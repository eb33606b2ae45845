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

  it("shows the library with names and files that there are", async () => {
    const [, code = ""] = readme.match(/```ts\n([\s\S]*?)```/) ?? [];
    const [, names = ""] = code.match(/import \{([^}]*)\} from "boothkeep";/) ?? [];
    const door = await import("../../src/public/boothkeep.ts");
    expect(names.split(",").length).toBeGreaterThan(3);
    for (const name of names.split(",")) expect(Object.keys(door)).toContain(name.trim());
    const samples = join(import.meta.dirname, "../../samples");
    const profiles = [...code.matchAll(/"profiles\/([^"]+)"/g)].map(
      ([, file]) => door.readProfile(readFileSync(join(samples, "profiles", file!))).document.id,
    );
    const old = door.readConfiguration(readFileSync(join(samples, "screens/lantern-mill/screen-1.json")));
    expect(profiles.length).toBe(2);
    expect(profiles[0], "the unit of the screen that the page works on").toBe(old.document.unit.profileId);
  });
});
