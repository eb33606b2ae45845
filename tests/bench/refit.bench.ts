import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type RefitSource, refitEqualizer } from "../../src/refit/index.ts";

interface ForwardCase {
  readonly id: string;
  readonly sourceFs: number;
  readonly targetFs: number;
  readonly source: {
    readonly graphicGains: readonly number[];
    readonly shelves: readonly { type: string; f: number; gain: number; q: number }[];
  };
  readonly byBands: Readonly<Record<string, { bestKnown: { stepsA: { rms: number } } }>>;
}

const BANDS = [5, 8, 10, 16] as const;

/** Graphic onto parametric on "steps A" of the reference: errors as ratios to the best known, CPU time of each fit. */
export async function run(): Promise<unknown> {
  const { forward } = JSON.parse(
    readFileSync(join(import.meta.dirname, "../reference/eq-refit-cases.json"), "utf8"),
  ) as { forward: readonly ForwardCase[] };
  return BANDS.map((bands) => {
    const fits = forward.map((item) => {
      const started = process.cpuUsage().user;
      const { rmsDb } = refitEqualizer(
        sourceOf(item),
        {
          sampleRateHz: item.targetFs,
          filters: {
            bands,
            kinds: ["peaking"],
            frequencyHz: { kind: "log", min: 20, max: 20_000, referenceHz: 1000, perOctave: 24 },
            gainDb: { kind: "step", min: -12, max: 12, step: 0.1 },
            q: { kind: "step", min: 0.4, max: 12, step: 0.1 },
          },
        },
        { tolerance: { rmsDb: 0, maxDb: 0 } },
      );
      const cpuMs = (process.cpuUsage().user - started) / 1000;
      return { ratio: rmsDb / item.byBands[bands]!.bestKnown.stepsA.rms, cpuMs };
    });
    const ratios = fits.map(({ ratio }) => ratio).sort((a, b) => a - b);
    return {
      bands,
      cases: fits.length,
      medianRatio: ratios[ratios.length >> 1],
      largestRatio: ratios.at(-1),
      largestCpuMs: Math.max(...fits.map(({ cpuMs }) => cpuMs)),
    };
  });
}

function sourceOf({ sourceFs, source }: ForwardCase): RefitSource {
  return {
    sampleRateHz: sourceFs,
    graphic: { layout: "third-octave-27", gainsDb: source.graphicGains },
    graphicQ: 2 ** (1 / 6) / (2 ** (1 / 3) - 1),
    filters: source.shelves.map(({ type, f, gain, q }) => ({
      kind: type === "lowshelf" ? ("low-shelf" as const) : ("high-shelf" as const),
      frequencyHz: f,
      gainDb: gain,
      q,
    })),
  };
}
