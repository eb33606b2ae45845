import { spawnSync } from "node:child_process";
import { outside } from "../outside.ts";

const PRELUDE = `
import json, sys
import numpy as np
from scipy import signal
freqz_sos = getattr(signal, "freqz_sos", None) or signal.sosfreqz
data = json.load(sys.stdin)
`;

/**
 * Runs a Python program that has `data` (parsed from JSON), `np`, `signal`, `freqz_sos`, and prints JSON.
 *
 * @returns undefined where Python with SciPy is not here.
 */
export function runSciPy<Result>(
  program: string,
  data: unknown,
  env: NodeJS.ProcessEnv = process.env,
): Result | undefined {
  const python = outside("scipy");
  if (python === undefined) return undefined;
  const run = spawnSync(python, ["-c", PRELUDE + program], {
    input: JSON.stringify(data),
    encoding: "utf8",
    maxBuffer: 256 * 1024 * 1024,
    env,
  });
  if (run.status !== 0) throw new Error(`Python failed: ${run.stderr}`);
  return JSON.parse(run.stdout) as Result;
}

/** Whether Python with SciPy is here; says so once when it is not. */
export function hasSciPy(): boolean {
  return outside("scipy") !== undefined;
}
