import { refitEqualizer } from "../../src/migrate/refit/index.ts";
import { moreCases, type RefitCase, referenceCases, STEPS_A } from "../migrate/refit/cases.ts";

const BANDS = [5, 8, 10, 16] as const;

/**
 * Onto parametric filters on "steps A" of the reference, with all bands used: errors as ratios to the best known, how many
 * are near (3 % or 0.005 dB) and not far (10 % or 0.01 dB), and the CPU time of a fit.
 */
export async function run(): Promise<unknown> {
  return {
    reference: { thorough: table(referenceCases(), "thorough"), quick: table(referenceCases(), "quick") },
    more: { thorough: table(moreCases(), "thorough") },
  };
}

function table(cases: readonly RefitCase[], effort: "quick" | "thorough") {
  return BANDS.map((bands) => {
    const fits = cases.map(({ source, targetSampleRateHz, bestRmsDb }) => {
      const started = process.cpuUsage().user;
      const { rmsDb } = refitEqualizer(
        source,
        { sampleRateHz: targetSampleRateHz, filters: { ...STEPS_A, bands } },
        { tolerance: { rmsDb: 0, maxDb: 0 }, effort },
      );
      const cpuMs = (process.cpuUsage().user - started) / 1000;
      const best = bestRmsDb[bands]!;
      const near = rmsDb <= Math.max(1.03 * best, best + 0.005);
      const notFar = rmsDb <= Math.max(1.1 * best, best + 0.01);
      return { ratio: rmsDb / best, near, notFar, cpuMs };
    });
    const ratio = spread(fits.map((fit) => fit.ratio));
    const cpuMs = spread(fits.map((fit) => fit.cpuMs));
    return {
      bands,
      cases: fits.length,
      near: fits.filter(({ near }) => near).length,
      notFar: fits.filter(({ notFar }) => notFar).length,
      medianRatio: ratio.median,
      ratioOf90Percent: ratio.ninety,
      largestRatio: ratio.largest,
      medianCpuMs: cpuMs.median,
      largestCpuMs: cpuMs.largest,
    };
  });
}

function spread(values: readonly number[]) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (part: number) => sorted[Math.min(Math.ceil(part * sorted.length), sorted.length) - 1]!;
  return { median: at(0.5), ninety: at(0.9), largest: at(1) };
}
