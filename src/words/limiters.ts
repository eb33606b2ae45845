import type { Limiter } from "../model/index.ts";
import { printDb, printMs } from "./numbers.ts";

/** In a plan: "−6.0 dBFS, attack 1.00 ms, release 100 ms". */
export function limiterInPlan({ thresholdDbfs, attackMs, releaseMs }: Limiter): string {
  return `${printDb(thresholdDbfs)}FS, attack ${printMs(attackMs)}, release ${printMs(releaseMs, 0)}`;
}

/** How an entry sheet prints the numbers of a limiter. */
export interface LimiterNumbers {
  readonly db: (limiter: Limiter, member: "thresholdDbfs") => string;
  readonly ms: (limiter: Limiter, member: "attackMs" | "releaseMs") => string;
}

/** On an entry sheet: "on, threshold −6.0 dBFS, attack 1 ms, release 100 ms", "none". */
export function limiterToKeyIn(limiter: Limiter | undefined, { db, ms }: LimiterNumbers): string {
  if (limiter === undefined) return "none";
  return `${limiter.enabled ? "on" : "OFF"}, threshold ${db(limiter, "thresholdDbfs").replace("dB", "dBFS")}, attack ${ms(limiter, "attackMs")}, release ${ms(limiter, "releaseMs")}`;
}
