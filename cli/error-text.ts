import type { BoothkeepError } from "../src/public/boothkeep.ts";
import { harmless, jsonText } from "../src/public/report.ts";
import { wrap } from "./wrap.ts";

/** An error for a person: what is wrong, where, what to do next; no line wider than `columns`. */
export function errorText(error: BoothkeepError, columns: number): string {
  if (error.code === "defect.unforeseen") return defectLine(error);
  const { file, pointer, id, line, column } = error.place;
  const where = [
    file === undefined ? "" : `file ${harmless(file)}`,
    line === undefined ? "" : `line ${line}${column === undefined ? "" : `, column ${column}`}`,
    pointer === undefined || pointer === "" ? "" : `at ${harmless(pointer)}`,
    id === undefined ? "" : `id ${harmless(id)}`,
  ].filter((part) => part !== "");
  const lines = [
    wrap(`boothkeep: ${harmless(error.message)}`, columns),
    where.length > 0 ? wrap(`Where: ${where.join(", ")}`, columns) : "",
    wrap(`Next: ${harmless(error.next)}`, columns),
    `(${error.code}, exit code ${error.exitCode})`,
  ];
  return lines.filter((text) => text !== "").join("\n");
}

/** The same for a script: one JSON document on standard error. */
export function errorJson(error: BoothkeepError): string {
  return jsonText({ ...error.toJSON(), exitCode: error.exitCode });
}

/** A defect is one line, for the logs of scripts: it is no matter of the one who reads it in a booth. */
function defectLine({ message, next, code, exitCode }: BoothkeepError): string {
  return harmless(`boothkeep: ${message} (${code}, exit code ${exitCode}). ${next}`);
}
