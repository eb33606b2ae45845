import { spawnSync } from "node:child_process";

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
 * @returns undefined where python3 with SciPy is absent.
 */
export function runSciPy<Result>(
  program: string,
  data: unknown,
  env: NodeJS.ProcessEnv = process.env,
): Result | undefined {
  if (!hasSciPy()) return undefined;
  const run = spawnSync("python3", ["-c", PRELUDE + program], {
    input: JSON.stringify(data),
    encoding: "utf8",
    maxBuffer: 256 * 1024 * 1024,
    env,
  });
  if (run.status !== 0) throw new Error(`python3 failed: ${run.stderr}`);
  return JSON.parse(run.stdout) as Result;
}

let found: boolean | undefined;

/** Whether python3 with SciPy is here; says so once when it is not. */
export function hasSciPy(): boolean {
  if (found === undefined) {
    found = spawnSync("python3", ["-c", "from scipy import __version__"]).status === 0;
    if (!found) console.log("python3 with SciPy is absent: the live check against SciPy is skipped.");
  }
  return found;
}
