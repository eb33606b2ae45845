import { existsSync, readFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import type { AnswersFor, OpenDecisions } from "../../src/public/migrate.ts";
import type { Context } from "../context.ts";
import { writeNew } from "../files.ts";
import { jsonFile } from "./screen.ts";

/**
 * Writes decisions files to fill in. A file that is there already is left alone: somebody may be at work on it.
 *
 * @returns the files, also those that were there with just this content
 */
export function writeOpenDecisions(
  open: readonly OpenDecisions[],
  folder: string,
  context: Context,
): readonly string[] {
  const units = new Set(open.map(({ fromProfileId }) => fromProfileId));
  return open.map(({ answers, fromProfileId, decisions }) => {
    const stem = `${stemOf(answers)}${units.size > 1 ? `.${fromProfileId}` : ""}`;
    return writeBeside(folder, stem, jsonFile(decisions), context.cwd);
  });
}

/** "large" for the class "large", "house" for house.json and what was made from it, "all" without answers. */
function stemOf({ name, file }: AnswersFor): string {
  const stem = name ?? (file === undefined ? "all" : basename(file).replace(/\.json$/i, ""));
  return stem
    .replace(/\.decisions$/i, "")
    .replace(/\.open(-\d+)?$/i, "")
    .replace(/[^A-Za-z0-9._-]+/g, "-");
}

function writeBeside(folder: string, stem: string, text: string, cwd: string): string {
  for (let number = 1; ; number += 1) {
    const file = join(folder, `${stem}.open${number === 1 ? "" : `-${number}`}.decisions.json`);
    const path = resolve(cwd, file);
    if (!existsSync(path)) {
      writeNew(file, text, cwd);
      return file;
    }
    if (readFileSync(path, "utf8") === text) return file;
  }
}
