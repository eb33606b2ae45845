import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const page = join(import.meta.dirname, "..", "..", "..", "schemas", "logbook-format.md");

/** A row of a table on the format page: a fault, what is said, and the exit code of each command. */
export interface Row {
  readonly fault: string;
  readonly says: string;
  readonly codes: Readonly<Record<string, number>>;
}

/** The rows of the table that the page has between two marks. */
export function rowsOnPage(mark: string): readonly Row[] {
  const [head = [], , ...rows] = blockOf(mark)
    .split("\n")
    .filter((line) => line.startsWith("|"))
    .map((line) =>
      line
        .split(/(?<!\\)\|/)
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
  const commands = head.slice(2);
  return rows.map(([fault = "", says = "", ...codes]) => ({
    fault,
    says,
    codes: Object.fromEntries(commands.map((command, index) => [command, Number(codes[index])])),
  }));
}

export function writeTable(mark: string, rows: readonly Row[]): void {
  const commands = Object.keys(rows[0]!.codes);
  const cells = [
    ["fault", "what is said of it", ...commands],
    ["---", "---", ...commands.map(() => "---")],
    ...rows.map(({ fault, says, codes }) => [fault, says, ...commands.map((name) => String(codes[name]))]),
  ];
  const table = cells.map((row) => `| ${row.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`);
  const text = readFileSync(page, "utf8");
  const old = blockOf(mark);
  writeFileSync(
    page,
    text.replace(old, () => `\n\n${table.join("\n")}\n\n`),
  );
}

function blockOf(mark: string): string {
  const text = readFileSync(page, "utf8");
  const [, block] = new RegExp(`<!-- ${mark} -->([\\s\\S]*?)<!-- end -->`).exec(text) ?? [];
  if (block === undefined) throw new Error(`The format page has no block '${mark}'.`);
  return block;
}
