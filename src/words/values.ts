import { fieldAt } from "../model/index.ts";
import { printDb, printHz, printMetres, printMs, printNumber } from "./numbers.ts";

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
      return printDb(value, Math.max(1, decimalsOf(value, 2)));
    case "Hz":
      return printHz(value);
    case "ms":
      return printMs(value);
    case "m":
      return printMetres(value);
    case "":
    case "mark":
      return printNumber(value, decimalsOf(value, 3));
    default:
      return `${printNumber(value, decimalsOf(value, 3))} ${unit}`;
  }
}

/** As many decimals as a number has, up to a limit. */
function decimalsOf(value: number, most: number): number {
  let decimals = 0;
  while (decimals < most && Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) > 1e-9)
    decimals++;
  return decimals;
}
