/** How numbers stand in the text of an export. */
export interface NumberFormat {
  readonly decimal: "." | ",";
  readonly suffix?: string | undefined;
  readonly decimals?: number | undefined;
}

/**
 * The number of a text such as "-4.5", "+3,0", "12 ms", or undefined. Nothing is guessed: no thousands, no other decimal
 * sign than the map's, no number beyond a double.
 */
export function numberOfText(text: string, { decimal, suffix }: NumberFormat): number | undefined {
  let digits = text.trim();
  if (suffix !== undefined) {
    if (!digits.endsWith(suffix.trimEnd())) return undefined;
    digits = digits.slice(0, -suffix.trimEnd().length).trim();
  }
  if (decimal === ",") {
    if (digits.includes(".")) return undefined;
    digits = digits.replace(",", ".");
  }
  if (!/^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?$/.test(digits)) return undefined;
  const value = Number(digits);
  return Number.isFinite(value) ? value + 0 : undefined;
}

/**
 * The text of a number. It follows the text that stood there before: a plus sign, and trailing zeros up to its
 * decimals, are kept; more decimals come where the value needs them, unless the format has a fixed count.
 */
export function textOfNumber(
  value: number,
  { decimal, suffix = "", decimals }: NumberFormat,
  before = "",
): string {
  const old = /^([+]?)[^.,]*(?:[.,](\d+))?/.exec(before.trim());
  const plain = decimals === undefined ? shortest(value) : value.toFixed(decimals);
  const count = old?.[2]?.length ?? 0;
  const filled = decimals === undefined && count <= MOST_FILLED ? fillDecimals(plain, count) : plain;
  const positive = /^-0(\.0*)?$/.test(filled) ? filled.slice(1) : filled;
  const signed = old?.[1] === "+" && value > 0 ? `+${positive}` : positive;
  return `${decimal === "," ? signed.replace(".", ",") : signed}${suffix}`;
}

/** More decimals than these stood there because the number had them, not because all numbers have as many. */
const MOST_FILLED = 3;

/** Twelve significant digits take off what the arithmetic leaves. */
export function twelveDigits(value: number): number {
  return Number.isInteger(value) ? value : Number(value.toPrecision(12));
}

function shortest(value: number): string {
  const rounded = twelveDigits(value);
  const text = String(rounded);
  return text.includes("e") ? rounded.toFixed(15).replace(/\.?0+$/, "") : text;
}

function fillDecimals(text: string, count: number): string {
  if (count === 0) return text;
  const [whole, fraction = ""] = text.split(".");
  return fraction.length >= count ? text : `${whole}.${fraction.padEnd(count, "0")}`;
}
