/**
 * Writes the samples.
 *
 * --check  writes nothing and fails when a committed file differs from what would be written
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { allSamples } from "./samples.ts";
import { sampleText } from "./text.ts";

const samplesFolder = join(import.meta.dirname, "..");

const stale = Object.entries(allSamples())
  .map(([name, document]) => ({ name, path: join(samplesFolder, name), text: sampleText(document) }))
  .filter(({ path, text }) => !existsSync(path) || readFileSync(path, "utf8") !== text);

if (process.argv.includes("--check")) {
  if (stale.length > 0) {
    console.error(`Stale samples: ${stale.map(({ name }) => name).join(", ")}. Run 'npm run samples'.`);
    process.exitCode = 1;
  }
} else {
  for (const { path, text } of stale) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  console.log(
    stale.length === 0 ? "Samples are up to date." : `Wrote ${stale.map(({ name }) => name).join(", ")}.`,
  );
}
