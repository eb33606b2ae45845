import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FilterAbility, GraphicAbility } from "../../src/model/index.ts";
import { type RefitFilter, type RefitSource, refitEqualizer } from "../../src/refit/index.ts";

interface ForwardCase {
  readonly id: string;
  readonly sourceFs: number;
  readonly targetFs: number;
  readonly source: {
    readonly graphicGains: readonly number[];
    readonly shelves: readonly { type: "lowshelf" | "highshelf"; f: number; gain: number; q: number }[];
  };
  readonly byBands: Readonly<Record<string, { bestKnown: { stepsA: { rms: number } } }>>;
}

interface ReverseCase {
  readonly id: string;
  readonly sourceFs: number;
  readonly targetFs: number;
  readonly source: { readonly parametric: readonly (readonly [number, number, number])[] };
  readonly bestKnown: Readonly<Record<"step0.1" | "step0.5", { rms: number }>>;
}

// Best-known results of a long search, with the conventions that the file itself states.
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "../reference/eq-refit-cases.json"), "utf8"),
) as { forward: readonly ForwardCase[]; reverse: readonly ReverseCase[] };

const Q = 2 ** (1 / 6) / (2 ** (1 / 3) - 1);
/** "Steps A" of the reference: frequencies on 1/24 octaves, gains and Q on tenths. */
const STEPS_A: Omit<FilterAbility, "bands"> = {
  kinds: ["peaking"],
  frequencyHz: { kind: "log", min: 20, max: 20_000, referenceHz: 1000, perOctave: 24 },
  gainDb: { kind: "step", min: -12, max: 12, step: 0.1 },
  q: { kind: "step", min: 0.4, max: 12, step: 0.1 },
};
/** Never reached, so that every band is used. */
const NOTHING = { rmsDb: 0, maxDb: 0 };

function forwardSource({ sourceFs, source }: ForwardCase): RefitSource {
  return {
    sampleRateHz: sourceFs,
    graphic: { layout: "third-octave-27", gainsDb: source.graphicGains },
    graphicQ: Q,
    filters: source.shelves.map(
      ({ type, f, gain, q }): RefitFilter => ({
        kind: type === "lowshelf" ? "low-shelf" : "high-shelf",
        frequencyHz: f,
        gainDb: gain,
        q,
      }),
    ),
  };
}

function parametricSource({ sourceFs, source }: ReverseCase): RefitSource {
  return {
    sampleRateHz: sourceFs,
    filters: source.parametric.map(([frequencyHz, gainDb, q]) => ({
      kind: "peaking",
      frequencyHz,
      gainDb,
      q,
    })),
  };
}

const graphic = (step: number): GraphicAbility => ({
  layout: "third-octave-27",
  q: Q,
  gainDb: { kind: "step", min: -12, max: 12, step },
});

describe("a graphic equalizer onto parametric filters", () => {
  it.each([5, 8])("comes near to the best known results with %i bands", (bands) => {
    const ratios = reference.forward.map((item) => {
      const { rmsDb } = refitEqualizer(
        forwardSource(item),
        { sampleRateHz: item.targetFs, filters: { ...STEPS_A, bands } },
        { tolerance: NOTHING },
      );
      const best = item.byBands[bands]!.bestKnown.stepsA.rms;
      expect(rmsDb, item.id).toBeLessThanOrEqual(Math.max(1.1 * best, best + 0.01));
      return rmsDb <= Math.max(1.03 * best, best + 0.005);
    });
    expect(ratios.filter(Boolean).length).toBeGreaterThanOrEqual(7);
  });

  it("uses as few bands as reach the tolerance, and never gets worse with more", () => {
    const source = forwardSource(reference.forward[1]!);
    const errors = [2, 4, 6, 8].map((bands) =>
      refitEqualizer(
        source,
        { sampleRateHz: 48_000, filters: { ...STEPS_A, bands } },
        { tolerance: NOTHING, effort: "quick" },
      ),
    );
    for (const [k, { rmsDb }] of errors.entries()) {
      if (k > 0) expect(rmsDb).toBeLessThanOrEqual(errors[k - 1]!.rmsDb);
    }
    const easy = refitEqualizer(
      source,
      { sampleRateHz: 48_000, filters: { ...STEPS_A, bands: 8 } },
      { tolerance: { rmsDb: errors[1]!.rmsDb, maxDb: 12 }, effort: "quick" },
    );
    expect(easy.filters.length).toBeLessThanOrEqual(4);
  });

  it("gives the same on every run", () => {
    const source = forwardSource(reference.forward[2]!);
    const target = { sampleRateHz: 96_000, filters: { ...STEPS_A, bands: 5 } };
    expect(refitEqualizer(source, target, { effort: "quick" })).toEqual(
      refitEqualizer(source, target, { effort: "quick" }),
    );
  });
});

describe("parametric filters onto a graphic equalizer", () => {
  it.each(reference.reverse)("$id is within 0.002 dB and 1 % of the best known", (item) => {
    const source = parametricSource(item);
    const fine = refitEqualizer(source, { sampleRateHz: item.targetFs, graphic: graphic(0.1) });
    expect(fine.rmsDb).toBeLessThanOrEqual(item.bestKnown["step0.1"].rms + 0.002);
    const coarse = refitEqualizer(source, { sampleRateHz: item.targetFs, graphic: graphic(0.5) });
    expect(coarse.rmsDb).toBeLessThanOrEqual(1.01 * item.bestKnown["step0.5"].rms);
  });
});

describe("a source that the target can hold", () => {
  const band = fc.record({
    kind: fc.constant("peaking" as const),
    frequencyHz: fc.integer({ min: -110, max: 90 }).map((k) => 1000 * 2 ** (k / 24)),
    gainDb: fc.integer({ min: -120, max: 120 }).map((tenths) => tenths / 10),
    q: fc.integer({ min: 4, max: 120 }).map((tenths) => tenths / 10),
  });

  it("is copied exactly", () => {
    fc.assert(
      fc.property(fc.array(band, { minLength: 1, maxLength: 8 }), (filters) => {
        const refit = refitEqualizer(
          { sampleRateHz: 48_000, filters },
          { sampleRateHz: 48_000, filters: { ...STEPS_A, bands: 8 } },
        );
        expect(refit).toMatchObject({ method: "copied", filters, rmsDb: 0 });
      }),
      { numRuns: 50 },
    );
  });

  it("is put on coarser steps where that is near enough", () => {
    const filters = [{ kind: "peaking" as const, frequencyHz: 1000, gainDb: -3.02, q: 1.01 }];
    const refit = refitEqualizer(
      { sampleRateHz: 48_000, filters },
      { sampleRateHz: 48_000, filters: { ...STEPS_A, bands: 2 } },
    );
    expect(refit.method).toBe("rounded");
    expect(refit.filters).toEqual([{ kind: "peaking", frequencyHz: 1000, gainDb: -3, q: 1 }]);
    expect(refit.maxDb).toBeLessThan(0.05);
  });
});
