import { fieldAt } from "../model/index.ts";
import { decimalsOf, printDb, printHz, printLevel, printMetres, printMs, printNumber } from "./numbers.ts";

/**
 * A value of a field as a person reads it, with its unit: "−3.0 dB", "1.6 kHz", "yes"; "none" for what is not there,
 * "empty" for an empty text. Values that are no leaf come as JSON.
 *
 * @param field path of a leaf in the table of fields: "outputs[].gainDb"
 * @example
 * printValue("outputs[].highPass.frequencyHz", 1600); // "1.6 kHz"
 */
export function printValue(field: string, value: unknown): string {
  if (value === undefined) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value === "" ? "empty" : value;
  if (typeof value !== "number") return JSON.stringify(value);
  const unit = fieldAt(field)?.unit ?? "";
  switch (unit) {
    case "dB":
      return printLevel(value);
    case "Hz":
      return printHz(value);
    case "ms":
      return printMs(value);
    case "m":
      return printMetres(value);
    case "":
    case "mark":
      return printNumber(value, decimalsOf(value, { most: 3 }));
    default:
      return `${printNumber(value, decimalsOf(value, { most: 3 }))} ${unit}`;
  }
}

/**
 * A value as it was sent and as it was read back: every decimal up to six, so that a difference shows. Without the field, of
 * which only the unit is known.
 */
export function printReadBack(value: string | number | boolean | null, unit: string): string {
  if (value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value === "" ? "empty" : value;
  if (unit === "Hz") return printHz(value);
  return [printNumber(value, decimalsOf(value, { most: 6 })), unit]
    .filter((part) => part !== "" && part !== "mark")
    .join(" ");
}

/** A value of a proof, whose unit is in its name: one decimal for levels and times. */
export function printProved(value: string | number | boolean | null, name: string): string {
  if (value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value;
  if (name.endsWith("Hz")) return printHz(value);
  if (name.endsWith("Dbfs")) return `${printNumber(value, 1)} dBFS`;
  if (name.endsWith("Db")) return printDb(value, 1);
  if (name.endsWith("Ms")) return `${printNumber(value, 1)} ms`;
  return String(value);
}
