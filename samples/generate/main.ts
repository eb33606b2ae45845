/**
 * Writes the samples.
 *
 * --check  writes nothing and fails when a committed file differs from what would be written
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { allExports, allSamples } from "./samples.ts";
import { sampleText } from "./text.ts";

const samplesFolder = join(import.meta.dirname, "..");

const documents = Object.entries(allSamples()).map(([name, document]) => ({
  name,
  bytes: Buffer.from(sampleText(document), "utf8"),
}));
const exports_ = Object.entries(allExports()).map(([name, bytes]) => ({ name, bytes }));

const stale = [...documents, ...exports_]
  .map((file) => ({ ...file, path: join(samplesFolder, file.name) }))
  .filter(({ path, bytes }) => !existsSync(path) || !readFileSync(path).equals(bytes));

if (process.argv.includes("--check")) {
  if (stale.length > 0) {
    console.error(`Stale samples: ${stale.map(({ name }) => name).join(", ")}. Run 'npm run samples'.`);
    process.exitCode = 1;
  }
} else {
  for (const { path, bytes } of stale) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
  console.log(
    stale.length === 0 ? "Samples are up to date." : `Wrote ${stale.map(({ name }) => name).join(", ")}.`,
  );
}
