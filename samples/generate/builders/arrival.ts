import { msFromMetres } from "../../../src/base/units/index.ts";

/**
 * Delay in ms that lets a loudspeaker arrive a set time after another at the reference seat.
 *
 * @param farM distance of the loudspeaker that leads
 * @param nearM distance of the loudspeaker that is delayed
 * @param afterMs how much later it arrives; negative delays are refused
 */
export function delayToArrive(options: {
  readonly farM: number;
  readonly nearM: number;
  readonly afterMs: number;
  readonly temperatureC: number;
}): number {
  const delayMs = msFromMetres(options.farM - options.nearM, options.temperatureC) + options.afterMs;
  if (delayMs < 0) throw new RangeError(`A loudspeaker cannot be ${-delayMs} ms early`);
  return delayMs;
}
