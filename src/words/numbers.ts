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

/** A level with a step in dB: "−3.0 dB", "−3.25 dB": two decimals only where it needs them. */
export function printLevel(db: number): string {
  return printDb(db, levelDecimals(db));
}

/** A change of such a level: "+1.5 dB", "−0.25 dB". */
export function printLevelChange(db: number): string {
  return printDbChange(db, levelDecimals(db));
}

/** Two levels are often subtracted: what the arithmetic leaves is no decimal. */
function levelDecimals(db: number): number {
  return decimalsOf(db, { least: 1, most: 2, tolerance: 1e-7 });
}

/** A number as it is, with a true minus sign. */
export function printAsIs(value: number): string {
  return String(value).replace("-", MINUS);
}

/** A mark of a scale, as it is: "+12", "0", "−6". */
export function printScaleMark(value: number): string {
  return value > 0 ? `+${value}` : printAsIs(value);
}

/** How far off, in up to three decimals as needed, always with a sign: "+0.5", "−12", "+0". */
export function printOffset(value: number): string {
  return `${value < 0 ? MINUS : "+"}${Number(Math.abs(value).toFixed(3))}`;
}

/** A number to key in: as many decimals as it has, at least so many, at most four, which show every step that a unit has. */
export function printToKeyIn(value: number, least = 1): string {
  return printNumber(value, decimalsOf(value, { least, most: 4 }));
}

/** A frequency to key in: as {@link printHz} where that is exact, else in Hz with up to six digits. */
export function printHzToKeyIn(frequencyHz: number): string {
  const short = Number(frequencyHz.toPrecision(4));
  return short === frequencyHz ? printHz(frequencyHz) : `${Number(frequencyHz.toPrecision(6))} Hz`;
}

/** A number of a grid of values or a limit of it: eight digits, at most six decimals. */
export function printGridValue(value: number): string {
  const short = Number(value.toPrecision(8));
  return printNumber(short, Math.min(6, (String(short).split(".")[1] ?? "").length));
}

/** How many decimals tell a number, within limits. */
export function decimalsOf(
  value: number,
  {
    least = 0,
    most,
    tolerance = 1e-9,
  }: { readonly least?: number; readonly most: number; readonly tolerance?: number },
): number {
  let decimals = least;
  while (decimals < most && Math.abs(Number(value.toFixed(decimals)) - value) > tolerance) decimals += 1;
  return decimals;
}

/** The digits of an id or a hash in groups of sixteen, which fit a line and can be compared by eye. */
export function groupedDigits(digits: string): string {
  return digits.match(/.{1,16}/g)?.join(" ") ?? digits;
}
