/** U+2212: a minus sign as wide as a plus sign, so columns of signed numbers line up. */
const MINUS = "\u2212";

/**
 * A number with a fixed count of decimals and a true minus sign; −0 reads as 0. Values that are not finite read "–∞",
 * "∞" or "–".
 */
export function printNumber(value: number, decimals: number): string {
  if (Number.isNaN(value)) return "\u2013";
  if (!Number.isFinite(value)) return value < 0 ? `${MINUS}∞` : "∞";
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

/** A number as {@link printNumber}, with a plus sign when it is above 0. */
export function printSigned(value: number, decimals: number): string {
  const text = printNumber(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** "−3.0 dB". */
export function printDb(db: number, decimals = 1): string {
  return `${printNumber(db, decimals)} dB`;
}

/** A change of level: "+1.5 dB", "−0.5 dB". */
export function printDbChange(db: number, decimals = 1): string {
  return `${printSigned(db, decimals)} dB`;
}

/** A frequency with up to four significant digits: "31.5 Hz", "630 Hz", "1.25 kHz", "16 kHz". */
export function printHz(frequencyHz: number): string {
  const rounded = Number(frequencyHz.toPrecision(4));
  return rounded >= 1000 ? `${trimmed(rounded / 1000)} kHz` : `${trimmed(rounded)} Hz`;
}

/** "12.50 ms". */
export function printMs(delayMs: number, decimals = 2): string {
  return `${printNumber(delayMs, decimals)} ms`;
}

/** "4.29 m". */
export function printMetres(distanceM: number, decimals = 2): string {
  return `${printNumber(distanceM, decimals)} m`;
}

function trimmed(value: number): string {
  return String(Number(value.toPrecision(4))).replace("-", MINUS);
}
