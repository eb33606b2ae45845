import type { Output } from "../model/index.ts";

/** Whether an output's limiter is there and in use. */
export function isLimited({ limiter }: Output): boolean {
  return limiter?.enabled === true;
}
