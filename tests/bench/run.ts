import { existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { cpus, platform, totalmem } from "node:os";
import { join } from "node:path";

/**
 * `npm run bench -- <name>` runs `<name>.bench.ts` (its exported `run()` gives plain data), prints the result with the
 * machine it was made on, and keeps it in results/<name>.json.
 */
const folder = import.meta.dirname;
const [name] = process.argv.slice(2);
const file = join(folder, `${name}.bench.ts`);

if (name === undefined || !existsSync(file)) {
  const names = readdirSync(folder)
    .filter((entry) => entry.endsWith(".bench.ts"))
    .map((entry) => entry.replace(".bench.ts", ""));
  console.error(`Say which: npm run bench -- ${names.join(" | ")}`);
  process.exit(2);
}

const { run } = (await import(`./${name}.bench.ts`)) as { run: () => Promise<unknown> };
const machine = {
  cpu: cpus()[0]?.model.trim() ?? "unknown",
  cores: cpus().length,
  memoryGiB: Math.round(totalmem() / 2 ** 30),
  platform: platform(),
  node: process.version,
};
const text = `${JSON.stringify({ benchmark: name, date: new Date().toISOString().slice(0, 10), machine, result: await run() }, null, 2)}\n`;
mkdirSync(join(folder, "results"), { recursive: true });
writeFileSync(join(folder, "results", `${name}.json`), text);
console.log(text);
