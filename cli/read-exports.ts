import { readdirSync, statSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { BoothkeepError, type Configuration, EXIT_CODE } from "../src/public/boothkeep.ts";
import type { Account, LoadedMap, ReadExport } from "../src/public/exchange.ts";
import { harmless, jsonText } from "../src/public/report.ts";
import type { Context } from "./context.ts";
import { readInput, removeUnfinished, writeOnce } from "./files.ts";
import { progress } from "./progress.ts";
import { indented, wrap } from "./wrap.ts";

/** What exports are read by. */
export interface Reading {
  readonly loaded: LoadedMap;
  readonly base: Configuration | undefined;
}

export interface ReadingMany extends Reading {
  /** Folder of the configurations. */
  readonly out: string | undefined;
  readonly json: boolean;
}

/** What became of one export. */
interface ToldExport {
  readonly name: string;
  readonly out?: string;
  readonly counts?: Account["counts"];
  readonly error?: BoothkeepError;
}

export function isFolder(path: string, { cwd }: Context): boolean {
  return statSync(resolve(cwd, path), { throwIfNoEntry: false })?.isDirectory() === true;
}

/** Reads one export; one that is too large is refused before it is read. */
export async function readExportFile(
  file: string,
  { loaded, base }: Reading,
  { cwd }: Context,
): Promise<ReadExport> {
  const { MAX_EXPORT_BYTES, readExport } = await import("../src/public/exchange.ts");
  const bytes = readInput(file, cwd, MAX_EXPORT_BYTES);
  return readExport(bytes, loaded, { file, ...(base === undefined ? {} : { base }) });
}

export function documentText(configuration: Configuration): string {
  return `${jsonText(configuration, 2)}\n`;
}

/** Reads many exports, one after the other; none stops the others. */
export async function readExports(
  paths: readonly string[],
  reading: ReadingMany,
  context: Context,
): Promise<void> {
  const { out } = reading;
  if (out === undefined) {
    throw new BoothkeepError("usage.wrong", "Several exports need a folder to write into.", {
      next: "Name it with --out.",
    });
  }
  const files = paths.flatMap((path) => (isFolder(path, context) ? filesIn(path, context) : [path]));
  refuseDoubles(files);
  removeUnfinished(resolve(context.cwd, out));
  const bar = progress(context, "Read", files.length);
  const told: ToldExport[] = [];
  for (const [i, file] of files.entries()) {
    told.push(await readInto(out, file, reading, context));
    bar.at(i + 1);
  }
  bar.end();
  for (const { error, counts } of told) {
    if (error !== undefined) context.exit(error.exitCode);
    else if (counts!.unknown > 0) context.exit(EXIT_CODE.found);
  }
  if (reading.json) context.out(jsonText({ exports: told }));
  else context.out(summary(told, out, context));
}

function filesIn(folder: string, { cwd }: Context): readonly string[] {
  return readdirSync(resolve(cwd, folder), { withFileTypes: true })
    .filter((entry) => entry.isFile() && !/^[.~]/.test(entry.name))
    .map((entry) => join(folder, entry.name))
    .sort();
}

/** Two exports of one name would be written as one configuration. */
function refuseDoubles(files: readonly string[]): void {
  const names = files.map((file) => basename(file).toLowerCase());
  const at = names.findIndex((name, i) => names.indexOf(name) < i);
  if (at < 0) return;
  throw new BoothkeepError("usage.wrong", `Two exports have the name '${basename(files[at]!)}'.`, {
    next: "Read them one folder after the other, each into a folder of its own.",
  });
}

async function readInto(
  folder: string,
  file: string,
  reading: Reading,
  context: Context,
): Promise<ToldExport> {
  const out = join(folder, `${basename(file)}.json`);
  try {
    const { configuration, account } = await readExportFile(file, reading, context);
    writeOnce(out, documentText(configuration), context.cwd);
    return { name: file, out, counts: account.counts };
  } catch (error) {
    if (error instanceof BoothkeepError) return { name: file, error };
    throw error;
  }
}

const SHOWN = 20;

function summary(told: readonly ToldExport[], out: string, { columns }: Context): string {
  const failed = told.flatMap(({ name, error }) => (error === undefined ? [] : [{ name, error }]));
  const unknown = told.filter(({ counts }) => counts !== undefined && counts.unknown > 0);
  const line = (text: string) => indented(harmless(text), columns);
  const lines = [wrap(`Exports read into ${out}: ${told.length - failed.length} of ${told.length}`, columns)];
  if (unknown.length > 0) {
    lines.push("", `Read, but with values that the map does not know: ${unknown.length}`);
    lines.push(...unknown.slice(0, SHOWN).map(({ name, counts }) => line(`${name}: ${counts!.unknown}`)));
    if (unknown.length > SHOWN) lines.push(`  and ${unknown.length - SHOWN} more`);
  }
  if (failed.length > 0) {
    lines.push("", `Not read: ${failed.length}`);
    for (const { name, error } of failed.slice(0, SHOWN))
      lines.push(line(`${name}: ${error.message} (${error.code})`));
    if (failed.length > SHOWN) lines.push(`  and ${failed.length - SHOWN} more; --json lists them all`);
    const [{ error }] = failed as [(typeof failed)[0]];
    lines.push(line(`Next, for the first: ${error.next}`));
  }
  return lines.join("\n");
}
