import type { BoothkeepError } from "../src/errors/index.ts";
import { wrap } from "./wrap.ts";

/** An error for a person: what is wrong, where, what to do next; no line wider than `columns`. */
export function errorText(error: BoothkeepError, columns: number): string {
  const { file, pointer, id, line, column } = error.place;
  const where = [
    file === undefined ? "" : `file ${printable(file)}`,
    line === undefined ? "" : `line ${line}${column === undefined ? "" : `, column ${column}`}`,
    pointer === undefined || pointer === "" ? "" : `at ${printable(pointer)}`,
    id === undefined ? "" : `id ${printable(id)}`,
  ].filter((part) => part !== "");
  const lines = [
    wrap(`boothkeep: ${printable(error.message)}`, columns),
    where.length > 0 ? wrap(`Where: ${where.join(", ")}`, columns) : "",
    wrap(`Next: ${printable(error.next)}`, columns),
    `(${error.code}, exit code ${error.exitCode})`,
  ];
  return lines.filter((text) => text !== "").join("\n");
}

/** The same for a script: one JSON document on standard error. */
export function errorJson(error: BoothkeepError): string {
  return JSON.stringify({ ...error.toJSON(), exitCode: error.exitCode });
}

/** Control characters and direction overrides in a name must do nothing to a terminal (RFC 3629, UAX #9). */
function printable(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/gu,
    (char) => `\\u${char.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
