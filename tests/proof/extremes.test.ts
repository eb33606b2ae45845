import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { acousticResponses, frequencyGrid, magnitudeDb } from "../../src/acoustics/index.ts";
import type { Configuration, EqBand } from "../../src/model/index.ts";
import { changed, pathsOf, proveSamples, small, unitOf } from "./samples.ts";

/** How far a path may be from the reference. */
const CLOSE_DB = 0.01;

const RATES = [44_100, 48_000, 96_000] as const;

/** A screen with one loudspeaker and one way, so that a proof is about one path. */
const bare = (sampleRateHz: number, filters: readonly EqBand[], gainsDb?: readonly number[]) =>
  changed(small, (draft) => {
    draft.unit.sampleRateHz = sampleRateHz;
    const preset = draft.presets[0]!;
    draft.presets = [preset];
    const [route] = preset.routing;
    const output = draft.outputs.find(
      ({ feeds, mix }) =>
        feeds.kind === "loudspeaker" && mix.some(({ channelId }) => channelId === route!.channelId),
    )!;
    preset.routing = [route!];
    draft.outputs = [output];
    delete output.highPass;
    delete output.lowPass;
    delete output.fir;
    output.filters = structuredClone(filters) as typeof output.filters;
    for (const set of draft.equalizations) {
      set.channels = set.channels
        .filter(({ channelId }) => channelId === route!.channelId)
        .map(({ channelId }) => ({
          channelId,
          ...(gainsDb && { graphic: { layout: "third-octave-31", gainsDb: [...gainsDb] } }),
        }));
    }
  });

/** Every frequency at which the reference is computed: 1/384 octave, and finer about its own extreme. */
function reference(before: Configuration, after: Configuration) {
  const belowHz = Math.min(before.unit.sampleRateHz, after.unit.sampleRateHz) / 2;
  const changeAt = (frequenciesHz: Float64Array) => {
    const levels = [before, after].map((configuration) => {
      const path = acousticResponses(configuration, { frequenciesHz, unit: unitOf(configuration) }).paths[0]!;
      const [eq, output] = [magnitudeDb(path.equalization), magnitudeDb(path.output)];
      return { path, db: eq.map((db, k) => db + output[k]!) };
    });
    const [was, is] = levels as [(typeof levels)[number], (typeof levels)[number]];
    const levelDb = is.path.levelDb - was.path.levelDb;
    return is.db.map((db, k) => levelDb + db - was.db[k]!);
  };
  const largest = (
    pointsPerOctave: number,
    fromHz: number,
    toHz: number,
    nominal: readonly [number, number],
  ) => {
    const grid = frequencyGrid({ fromHz, toHz, pointsPerOctave, belowHz }).filter(
      (hz) => hz > nominal[0] && hz < nominal[1],
    );
    const values = changeAt(grid);
    let at = 0;
    for (let k = 1; k < values.length; k++) if (Math.abs(values[k]!) > Math.abs(values[at]!)) at = k;
    return { db: values[at]!, hz: grid[at]! };
  };
  return (
    [
      [39.81, 15_849],
      [15_848, 19_954],
    ] as const
  ).map((nominal) => {
    const coarse = largest(384, 20, 20_000, nominal);
    const fine = largest(1000, coarse.hz * 0.99, Math.min(coarse.hz * 1.01, nominal[1]), nominal);
    return { coarseDb: Math.abs(coarse.db), fineDb: Math.max(Math.abs(coarse.db), Math.abs(fine.db)) };
  });
}

function bandAt(sampleRateHz: number, q: { min: number; max: number }): fc.Arbitrary<EqBand> {
  const frequencyHz = fc
    .double({ min: Math.log(30), max: Math.log(0.48 * sampleRateHz), noNaN: true })
    .map((value) => Math.exp(value));
  const gainDb = fc.double({ min: -12, max: 12, noNaN: true });
  const width = fc
    .double({ min: Math.log(q.min), max: Math.log(q.max), noNaN: true })
    .map((value) => Math.exp(value));
  return fc
    .oneof(
      fc.record({ kind: fc.constant("peaking" as const), frequencyHz, gainDb, q: width }),
      fc.record({
        kind: fc.constantFrom("low-shelf" as const, "high-shelf" as const),
        frequencyHz,
        gainDb,
        q: fc.double({ min: 0.4, max: 1.2, noNaN: true }),
      }),
    )
    .map((band) => ({ id: "x", ...band }) as EqBand);
}

const numbered = (bands: readonly EqBand[]) => bands.map((band, index) => ({ ...band, id: `b${index}` }));

function check(before: Configuration, after: Configuration) {
  const [path] = pathsOf(proveSamples(before, after));
  const [band, edge] = reference(before, after);
  const responseDb = Math.abs(path!.deviation?.responseDb ?? 0);
  const highEdgeDb = Math.abs(path!.deviation?.highEdgeDb ?? 0);
  expect(responseDb).toBeGreaterThan(band!.coarseDb - CLOSE_DB);
  expect(responseDb).toBeLessThan(band!.fineDb + CLOSE_DB);
  expect(highEdgeDb).toBeGreaterThan(edge!.coarseDb - CLOSE_DB);
  expect(highEdgeDb).toBeLessThan(edge!.fineDb + CLOSE_DB);
}

describe("the largest deviation of a path", () => {
  it.each(RATES)("is within 0.01 dB of 1/384 octave: filters up to 0.48 of %d Hz", (rate) => {
    fc.assert(
      fc.property(
        fc.array(bandAt(rate, { min: 0.3, max: 30 }), { minLength: 1, maxLength: 6 }),
        fc.array(bandAt(rate, { min: 0.3, max: 30 }), { maxLength: 6 }),
        (after, before) => check(bare(rate, numbered(before)), bare(rate, numbered(after))),
      ),
      { numRuns: 60 },
    );
  });

  it.each(RATES)("is within 0.01 dB of 1/384 octave: graphic bands at %d Hz", (rate) => {
    const gains = fc.array(
      fc.integer({ min: -24, max: 24 }).map((step) => step / 2),
      { minLength: 31, maxLength: 31 },
    );
    fc.assert(
      fc.property(gains, gains, (before, after) => check(bare(rate, [], before), bare(rate, [], after))),
      { numRuns: 30 },
    );
  });

  it("is within 0.01 dB of 1/384 octave: from one sample rate to another, a refit", () => {
    const gains = fc.array(
      fc.integer({ min: -12, max: 12 }).map((step) => step / 2),
      { minLength: 31, maxLength: 31 },
    );
    fc.assert(
      fc.property(gains, fc.array(bandAt(48_000, { min: 0.3, max: 10 }), { maxLength: 6 }), (before, after) =>
        check(bare(48_000, [], before), bare(96_000, numbered(after))),
      ),
      { numRuns: 30 },
    );
  });

  it("does not lie beyond the tolerance unseen: a graphic band at 16 kHz beside a wide filter", () => {
    const gainsDb = Array.from({ length: 31 }, (_, k) => (k === 29 ? 3 : 0));
    const wide: EqBand = { id: "w", kind: "peaking", frequencyHz: 16_600, gainDb: -3.4, q: 3.5 };
    check(bare(48_000, []), bare(48_000, [wide], gainsDb));
  });
});
