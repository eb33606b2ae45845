import { fieldAt } from "../model/index.ts";
import { printHz, printMetres, printMs, printNumber } from "../units/index.ts";
import { level } from "./phrases.ts";

/** A value of a field as a person reads it, with its unit: "−3.0 dB", "yes", "none" for what is not there. */
export function printValue(path: string, value: unknown): string {
  if (value === undefined) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value === "" ? "empty" : value;
  if (typeof value !== "number") return JSON.stringify(value);
  const unit = fieldAt(path)?.unit ?? "";
  switch (unit) {
    case "dB":
      return level(value);
    case "Hz":
      return printHz(value);
    case "ms":
      return printMs(value);
    case "m":
      return printMetres(value);
    default:
      return `${plain(value)}${unit === "" || unit === "mark" ? "" : ` ${unit}`}`;
  }
}

/** As many decimals as the number has, at most three. */
function plain(value: number): string {
  const decimals = [0, 1, 2].find(
    (count) => Math.abs(value * 10 ** count - Math.round(value * 10 ** count)) < 1e-9,
  );
  return printNumber(value, decimals ?? 3);
}
