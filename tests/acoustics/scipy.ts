import { spawnSync } from "node:child_process";

const { OPENBLAS_CORETYPE: _, ...environment } = process.env;

/**
 * Runs a Python program that has `data` (parsed from JSON) and prints JSON.
 *
 * @returns undefined where python3 with SciPy is absent.
 */
export function runSciPy<Result>(program: string, data: unknown): Result | undefined {
  const code = `import json, sys\nimport numpy as np\nfrom scipy import signal\ndata = json.load(sys.stdin)\n${program}`;
  if (!hasSciPy()) return undefined;
  const run = spawnSync("python3", ["-c", code], {
    input: JSON.stringify(data),
    encoding: "utf8",
    maxBuffer: 256 * 1024 * 1024,
    env: environment,
  });
  if (run.status !== 0) throw new Error(`python3 failed: ${run.stderr}`);
  return JSON.parse(run.stdout) as Result;
}

let found: boolean | undefined;

/** Whether python3 with SciPy is here; says so once when it is not. */
export function hasSciPy(): boolean {
  if (found === undefined) {
    found = spawnSync("python3", ["-c", "from scipy import __version__"], { env: environment }).status === 0;
    if (!found) console.log("python3 with SciPy is absent: the live check against SciPy is skipped.");
  }
  return found;
}
