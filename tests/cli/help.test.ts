import { readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { runCommand } from "./run-command.ts";

const folder = join(import.meta.dirname, "../../cli/commands");
const names = readdirSync(folder)
  .filter((file) => file !== "index.ts")
  .map((file) => file.replace(".ts", ""));

describe("the help", () => {
  it("lists every command once, whatever its group", async () => {
    const { out, code } = await runCommand(["--help"], { cwd: folder });
    expect(code).toBe(0);
    for (const name of names) {
      expect(out.match(new RegExp(`^ {2}${name} {2}`, "gm")), name).toHaveLength(1);
    }
  });

  it("of one command, which is then the only one that is set up, shows an example within 80 columns", async () => {
    expect(names.length).toBeGreaterThan(20);
    for (const call of [...names.map((name) => [name]), ...(await subcommands())]) {
      const { out, code } = await runCommand([...call, "--help"], { cwd: folder });
      const name = call.join(" ");
      expect(code, name).toBe(0);
      expect(out, name).toContain(`Usage: boothkeep ${name}`);
      if (!out.includes("\nCommands:\n")) expect(out, name).toMatch(/^ {2}boothkeep /m);
      expect(Math.max(...out.split("\n").map((line) => line.length)), name).toBeLessThanOrEqual(80);
    }
  });
});

/** Calls of the commands of commands, as their help lists them. */
async function subcommands(): Promise<string[][]> {
  const found: string[][] = [];
  for (const name of names) {
    const { out } = await runCommand([name, "--help"], { cwd: folder });
    const listed = /\nCommands:\n((?: {2}.*\n)+)/.exec(out)?.[1] ?? "";
    for (const [, sub] of listed.matchAll(/^ {2}(\S+)/gm)) found.push([name, sub!]);
  }
  expect(found.length).toBeGreaterThan(3);
  expect(found.map(([, sub]) => sub)).not.toContain("help");
  return found;
}
