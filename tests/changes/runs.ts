/** How often a law is tried: as said, and many times as often when BOOTHKEEP_LONG is set. */
export function runs(often: number): number {
  return process.env.BOOTHKEEP_LONG === "1" ? often * 20 : often;
}
