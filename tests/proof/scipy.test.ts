import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { frequencyGrid } from "../../src/acoustics/index.ts";
import type { Configuration, PathDeviation, Proof } from "../../src/model/index.ts";
import { comparisonGrid } from "../../src/proof/frequencies.ts";
import { outside, requireOutside } from "../outside.ts";
import { changed, large, pathsOf, proveSamples, readSample, screens, small, unitOf } from "./samples.ts";

const script = join(import.meta.dirname, "scipy_paths.py");

type SciPyPath = Omit<PathDeviation, "responseAtHz" | "phaseAtHz" | "lowEdgeDb" | "highEdgeDb"> & {
  readonly path: readonly string[];
};

function computedBySciPy(
  pairs: readonly (readonly [Configuration, Configuration])[],
  frequenciesOf: (before: Configuration, after: Configuration) => Float64Array,
): readonly (readonly SciPyPath[])[] {
  const input = {
    pairs: pairs.map(([before, after]) => ({
      before,
      after,
      beforeUnit: unitOf(before),
      afterUnit: unitOf(after),
      frequenciesHz: [...frequenciesOf(before, after)],
    })),
  };
  const { stdout, stderr, status } = spawnSync(requireOutside("scipy"), [script], {
    input: JSON.stringify(input),
    encoding: "utf8",
    maxBuffer: 256 * 1024 * 1024,
  });
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return JSON.parse(stdout) as SciPyPath[][];
}

const onGrid = (before: Configuration, after: Configuration) => comparisonGrid(before, after).frequenciesHz;

/** 1/384 octave: finer than any filter of the samples. */
const fine = (before: Configuration, after: Configuration) =>
  frequencyGrid({
    pointsPerOctave: 384,
    belowHz: Math.min(before.unit.sampleRateHz, after.unit.sampleRateHz) / 2,
  });

/** Paths by the names that the script uses: the position of a source instead of the id of its channel. */
function byName(
  proof: Proof,
  before: Configuration,
): ReadonlyMap<string, ReturnType<typeof pathsOf>[number]> {
  const positions = new Map(
    before.sources.flatMap(({ id, channels }) =>
      channels.map((channel) => [channel.id, `${id}:${channel.position}`]),
    ),
  );
  return new Map(
    pathsOf(proof).map((path) => [
      JSON.stringify([path.presetId, positions.get(path.sourceChannelId), path.channel, path.feedId]),
      path,
    ]),
  );
}

/** Every filter kind, Bessel, a bypassed graphic and FIR taps, on a screen that has none of them. */
const odd = changed(small, ({ outputs, equalizations }) => {
  const at = { frequencyHz: 900, q: 2 } as const;
  outputs[0]!.filters.push(
    { id: "x1", kind: "low-shelf", frequencyHz: 120, gainDb: 3, slope: 0.8 },
    { id: "x2", kind: "high-shelf", frequencyHz: 4000, gainDb: -2, q: 0.7 },
    { id: "x3", kind: "all-pass", frequencyHz: 300, order: 1 },
    { id: "x4", kind: "all-pass", frequencyHz: 500, order: 2, q: 1.1 },
  );
  outputs[1]!.filters.push(
    { id: "y1", kind: "notch", ...at },
    { id: "y2", kind: "band-pass", ...at, q: 0.4 },
  );
  outputs[2]!.filters.push({ id: "z1", kind: "high-pass", ...at }, { id: "z2", kind: "low-pass", ...at });
  outputs[0]!.highPass = { family: "bessel", order: 4, frequencyHz: 60, normalization: "phase" };
  outputs[1]!.lowPass = { family: "bessel", order: 3, frequencyHz: 12_000, normalization: "magnitude" };
  outputs[3]!.fir = { taps: [0.1, 0.2, 0.4, 0.2, 0.1] };
  outputs[4]!.polarity = "inverted";
  equalizations[0]!.channels[0]!.graphic!.enabled = false;
});

const fasterRate = changed(large, ({ unit }) => {
  unit.sampleRateHz = 96_000;
});

const PAIRS: readonly (readonly [string, Configuration, Configuration])[] = [
  [
    "as left and as found",
    large,
    readSample<Configuration>("visits", "lantern-mill", "screen-1-autumn.json"),
  ],
  ["two screens of one class", large, screens[2]!],
  ["48 and 96 kHz", large, fasterRate],
  ["every kind of filter", small, odd],
];

describe.runIf(outside("scipy"))("deviations against SciPy", () => {
  const documents = PAIRS.map(([, before, after]) => [before, after] as const);
  const computed = outside("scipy") ? computedBySciPy(documents, onGrid) : [];
  const finer = outside("scipy") ? computedBySciPy(documents, fine) : [];

  it.each(PAIRS.map(([name, before, after], index) => ({ name, before, after, index })))(
    "are the same for every path: $name",
    ({ before, after, index }) => {
      const proof = proveSamples(before, after);
      const paths = byName(proof, before);
      let compared = 0;
      for (const [at, { path, delayMs, ...expected }] of computed[index]!.entries()) {
        const proved = paths.get(JSON.stringify(path));
        if (proved?.verdict === "missing") continue;
        expect(proved, JSON.stringify(path)).toBeDefined();
        compared++;
        if (proved!.verdict === "equal") {
          expect(Math.abs(expected.responseDb)).toBeLessThan(0.0015);
          expect(expected.polarity).toBe("same");
          continue;
        }
        const { deviation } = proved!;
        const largestDb = finer[index]![at]!.responseDb;
        // The center of a notch is deeper than any grid finds it.
        if (Math.abs(largestDb) < 20) {
          expect(Math.abs(deviation!.responseDb - largestDb)).toBeLessThan(0.01);
        }
        expect(Math.abs(deviation!.responseRmsDb - expected.responseRmsDb)).toBeLessThan(0.001);
        expect(Math.abs(deviation!.levelDb - expected.levelDb)).toBeLessThan(0.001);
        expect(Math.abs(Math.abs(deviation!.phaseDeg) - expected.phaseDeg)).toBeLessThan(0.02);
        expect(deviation!.polarity).toBe(expected.polarity);
        const presetMs = proof.presets.find(({ presetId }) => presetId === path[0])!.delayMs;
        expect(deviation!.delayMs + presetMs + proof.commonDelayMs).toBeCloseTo(delayMs, 4);
      }
      expect(compared).toBeGreaterThan(50);
    },
  );
});
