/** True: laws and faults are tried for minutes instead of seconds, as a contributor does not wait for. */
export const LONG = process.env.BOOTHKEEP_LONG === "1";

/** How often a law is tried: as said, and several times as often in the long run. */
export function runs(often: number, long = 4 * often): number {
  return LONG ? long : often;
}
