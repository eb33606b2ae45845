import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { performance } from "node:perf_hooks";

export const COMMAND = join(import.meta.dirname, "..", "..", "dist", "cli", "main.js");

export interface MeasuredCommand {
  readonly seconds: number;
  /** Of all its threads: what a machine that does something else besides does not change. */
  readonly cpuSeconds: number;
  /** Largest resident set of the process. */
  readonly maxMiB: number;
  readonly code: number;
}

/** Runs the built command in a process of its own, which says at its end how much time and memory it needed. */
export function measuredCommand(cwd: string, args: readonly string[]): MeasuredCommand {
  const said = join(cwd, "usage.json");
  const preload = join(cwd, "preload.cjs");
  writeFileSync(
    preload,
    `process.on("exit", () => {
      if (!require("worker_threads").isMainThread) return;
      require("fs").writeFileSync(${JSON.stringify(said)}, JSON.stringify(process.resourceUsage()));
    });`,
  );
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ["--require", preload, COMMAND, ...args], {
    cwd,
    stdio: ["ignore", "ignore", "pipe"],
    maxBuffer: 1 << 28,
  });
  if (status === null || status === 2 || status === 3) throw new Error(String(stderr));
  const seconds = (performance.now() - start) / 1000;
  const used = JSON.parse(readFileSync(said, "utf8")) as Readonly<
    Record<"maxRSS" | "userCPUTime" | "systemCPUTime", number>
  >;
  return {
    seconds: Number(seconds.toFixed(2)),
    cpuSeconds: Number(((used.userCPUTime + used.systemCPUTime) / 1e6).toFixed(2)),
    maxMiB: Math.round(used.maxRSS / 1024),
    code: status,
  };
}
