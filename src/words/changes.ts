import { metresFromMs, octavesBetween } from "../base/units/index.ts";
import { printLevel, printMetres, printMs, printNumber } from "./numbers.ts";

/** "raised by 2.5 dB", "lowered by 0.5 dB". */
export function raisedBy(db: number): string {
  return `${db > 0 ? "raised" : "lowered"} by ${printLevel(Math.abs(db))}`;
}

/** "later by 12.50 ms (4.29 m)" */
export function laterBy(ms: number, temperatureC: number): string {
  const distance = printMetres(metresFromMs(Math.abs(ms), temperatureC));
  return `${ms > 0 ? "later" : "earlier"} by ${printMs(Math.abs(ms))} (${distance})`;
}

/** "0.68 octaves lower" */
export function octavesMoved(fromHz: number, toHz: number): string {
  const octaves = octavesBetween(fromHz, toHz);
  return `${printNumber(Math.abs(octaves), 2)} octaves ${octaves > 0 ? "higher" : "lower"}`;
}
