import { appendFileSync, existsSync, mkdirSync, readFileSync } from "node:fs";
import { dirname } from "node:path";
import { jsonText } from "../../src/public/report.ts";

/** A file of JSON values, one a line, that is only ever added to. */
export interface LineFile<Value> {
  readonly values: readonly Value[];
  readonly add: (value: Value) => void;
}

/**
 * Opens a file of lines. What a killed process left of a last line is passed over: the line that follows starts anew.
 *
 * @param isValue whether what a line holds is of use here
 */
export function openLineFile<Value>(
  path: string,
  isValue: (value: unknown) => value is Value,
): LineFile<Value> {
  const text = existsSync(path) ? readFileSync(path, "utf8") : "";
  const values = text.split("\n").flatMap((line): readonly Value[] => {
    try {
      const value: unknown = JSON.parse(line);
      return isValue(value) ? [value] : [];
    } catch {
      return [];
    }
  });
  let start = text === "" || text.endsWith("\n") ? "" : "\n";
  return {
    values,
    add(value) {
      mkdirSync(dirname(path), { recursive: true });
      appendFileSync(path, `${start}${jsonText(value)}\n`);
      start = "";
    },
  };
}
