import { metresFromMs, octavesBetween } from "../../base/units/index.ts";
import type { Crossover, EqBand } from "../../model/index.ts";
import { printDb, printDbChange, printHz, printMetres, printMs, printNumber } from "../../words/index.ts";

/** "raised by 2.5 dB", "lowered by 0.5 dB". */
export function raisedBy(db: number): string {
  return `${db > 0 ? "raised" : "lowered"} by ${printDb(Math.abs(db), decimalsOf(db))}`;
}

/** "later by 12.50 ms (4.29 m)" */
export function laterBy(ms: number, temperatureC: number): string {
  const distance = printMetres(metresFromMs(Math.abs(ms), temperatureC));
  return `${ms > 0 ? "later" : "earlier"} by ${printMs(Math.abs(ms))} (${distance})`;
}

/** As many decimals as a level needs, one or two. */
function decimalsOf(db: number): number {
  return Math.abs(db * 10 - Math.round(db * 10)) < 1e-6 ? 1 : 2;
}

/** A setting in dB: "−3.0 dB", "−3.25 dB". */
export function level(db: number): string {
  return printDb(db, decimalsOf(db));
}

/** A difference in dB: "+1.5 dB". */
export function levelChange(db: number): string {
  return printDbChange(db, decimalsOf(db));
}

/** "0.68 octaves lower" */
export function octavesMoved(fromHz: number, toHz: number): string {
  const octaves = octavesBetween(fromHz, toHz);
  return `${printNumber(Math.abs(octaves), 2)} octaves ${octaves > 0 ? "higher" : "lower"}`;
}

const FAMILIES: Readonly<Record<Crossover["family"], string>> = {
  butterworth: "Butterworth",
  bessel: "Bessel",
  "linkwitz-riley": "Linkwitz-Riley",
};

/** "1.6 kHz, Linkwitz-Riley, 24 dB/octave" */
export function crossover(half: Crossover | undefined): string {
  if (half === undefined) return "none";
  const normalization = half.normalization === undefined ? "" : ` (${half.normalization} normalized)`;
  return `${printHz(half.frequencyHz)}, ${FAMILIES[half.family]}${normalization}, ${6 * half.order} dB/octave`;
}

/** "peaking 1.25 kHz, −3.0 dB, Q 2" */
export function filter(band: EqBand): string {
  const gain = "gainDb" in band ? `, ${level(band.gainDb)}` : "";
  const width =
    "q" in band && band.q !== undefined
      ? `, Q ${printNumber(band.q, 2)}`
      : "slope" in band && band.slope !== undefined
        ? `, slope ${printNumber(band.slope, 2)}`
        : "";
  const off = band.enabled === false ? ", bypassed" : "";
  return `${band.kind} ${printHz(band.frequencyHz)}${gain}${width}${off}`;
}

/** "A", "A and B", "A, B and C"; of more than `most` the first ones and how many more. Parts with commas: semicolons. */
export function listed(words: readonly string[], most = 4): string {
  const shown =
    words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  const gap = shown.some((word) => word.includes(",")) ? "; " : ", ";
  return shown.length < 2 ? (shown[0] ?? "") : `${shown.slice(0, -1).join(gap)} and ${shown.at(-1)}`;
}

/** A name as somebody typed it. */
export function quoted(name: unknown): string {
  return `“${String(name)}”`;
}

/** "1 crossing", "3 crossings" */
export function counted(count: number, one: string, several = `${one}s`): string {
  return `${count} ${count === 1 ? one : several}`;
}
