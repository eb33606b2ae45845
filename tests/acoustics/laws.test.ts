import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  CROSSOVER_FAMILY_NAMES,
  type CrossoverHalf,
  cascadeGroupDelayMs,
  cascadeResponse,
  crossoverOrders,
  crossoverSections,
  delayedResponse,
  digitalCoefficients,
  FILTER_KIND_NAMES,
  filterSections,
  firResponse,
  frequencyAxis,
  frequencyGrid,
  magnitudeDb,
  type ParametricFilter,
  type Section,
  SILENCE_DB,
} from "../../src/acoustics/index.ts";
import { type ComplexArray, phaseOf, unwrapped } from "../../src/base/numeric/index.ts";
import { levelsDb, phaseDistance } from "./reference.ts";

const SAMPLE_RATES_HZ = [32_000, 44_100, 48_000, 88_200, 96_000, 192_000];

const sampleRates = fc.constantFrom(...SAMPLE_RATES_HZ);
const logarithmic = (from: number, to: number) =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map(Math.exp);

const filters: fc.Arbitrary<ParametricFilter> = fc
  .record({
    kind: fc.constantFrom(...FILTER_KIND_NAMES),
    frequencyHz: logarithmic(10, 15_900),
    gainDb: fc.double({ min: -24, max: 24, noNaN: true }),
    q: logarithmic(0.1, 50),
    order: fc.constantFrom(1, 2),
  })
  .map((settings) => settings as ParametricFilter);

const halves: fc.Arbitrary<CrossoverHalf> = fc
  .record({
    family: fc.constantFrom(...CROSSOVER_FAMILY_NAMES),
    pick: fc.nat(7),
    frequencyHz: logarithmic(10, 15_900),
    normalization: fc.constantFrom("phase" as const, "magnitude" as const),
  })
  .map(({ family, pick, frequencyHz, normalization }) => {
    const orders = crossoverOrders(family);
    const half = { family, order: orders[pick % orders.length]!, frequencyHz };
    return family === "bessel" ? { ...half, normalization } : half;
  });

function at(sections: readonly Section[], sampleRateHz: number, frequencyHz: number): number {
  return levelsDb(cascadeResponse(sections, frequencyAxis(sampleRateHz, [frequencyHz])))[0]!;
}

function largest(values: Iterable<number>): number {
  return Math.max(...[...values].map(Math.abs));
}

describe("crossover families at 10 Hz and 192 kHz as anywhere else", () => {
  const everywhere = fc.record({ sampleRateHz: sampleRates, frequencyHz: logarithmic(10, 15_900) });
  const sides = ["low-pass", "high-pass"] as const;

  it.each(crossoverOrders("butterworth"))(
    "Butterworth %i: −3.01 dB at the corner, 1/|H|² = 1 + Ω^(2n)",
    (order) => {
      fc.assert(
        fc.property(everywhere, ({ sampleRateHz, frequencyHz }) => {
          const axis = frequencyAxis(sampleRateHz);
          const corner = Math.tan((Math.PI * frequencyHz) / sampleRateHz);
          for (const side of sides) {
            const sections = crossoverSections(
              { family: "butterworth", order, frequencyHz },
              side,
              sampleRateHz,
            );
            expect(at(sections, sampleRateHz, frequencyHz)).toBeCloseTo(-10 * Math.log10(2), 10);
            const levels = levelsDb(cascadeResponse(sections, axis));
            axis.frequenciesHz.forEach((hz, k) => {
              const omega = Math.tan((Math.PI * hz) / sampleRateHz) / corner;
              const exact = -10 * Math.log10(1 + omega ** (side === "low-pass" ? 2 * order : -2 * order));
              expect(Math.abs(levels[k]! - exact)).toBeLessThan(1e-10);
            });
          }
        }),
        { numRuns: 10 },
      );
    },
  );

  it.each(crossoverOrders("linkwitz-riley"))(
    "Linkwitz-Riley %i: −6.02 dB at the corner; the ways sum to 0 dB within 1e-10 with the right polarity",
    (order) => {
      fc.assert(
        fc.property(everywhere, ({ sampleRateHz, frequencyHz }) => {
          const axis = frequencyAxis(sampleRateHz);
          const half = { family: "linkwitz-riley", order, frequencyHz } as const;
          const [low, high] = sides.map((side) => crossoverSections(half, side, sampleRateHz));
          expect(at(low!, sampleRateHz, frequencyHz)).toBeCloseTo(-20 * Math.log10(2), 10);
          expect(at(high!, sampleRateHz, frequencyHz)).toBeCloseTo(-20 * Math.log10(2), 10);
          const sign = order % 4 === 0 ? 1 : -1;
          const a = cascadeResponse(low!, axis);
          const b = cascadeResponse(high!, axis);
          const sum = {
            re: a.re.map((x, k) => x + sign * b.re[k]!),
            im: a.im.map((x, k) => x + sign * b.im[k]!),
          };
          expect(largest(levelsDb(sum))).toBeLessThan(1e-10);
        }),
        { numRuns: 10 },
      );
    },
  );

  it.each(crossoverOrders("bessel"))(
    "Bessel %i: −3.01 dB at the corner by magnitude, the asymptote of Butterworth by phase",
    (order) => {
      fc.assert(
        fc.property(everywhere, ({ sampleRateHz, frequencyHz }) => {
          const half = { family: "bessel", order, frequencyHz } as const;
          for (const side of sides) {
            const magnitude = crossoverSections({ ...half, normalization: "magnitude" }, side, sampleRateHz);
            expect(at(magnitude, sampleRateHz, frequencyHz)).toBeCloseTo(-10 * Math.log10(2), 9);
            const phase = crossoverSections({ ...half, normalization: "phase" }, side, sampleRateHz);
            const butterworth = crossoverSections(
              { family: "butterworth", order, frequencyHz },
              side,
              sampleRateHz,
            );
            const product = (sections: readonly Section[]) => {
              const far =
                side === "low-pass"
                  ? sections.map((s) => s.b0 / (s.a2 || s.a1))
                  : sections.map((s) => (s.b2 || s.b1) / s.a0);
              return far.reduce((a, b) => a * b, 1);
            };
            expect(product(phase) / product(butterworth)).toBeCloseTo(1, 10);
          }
        }),
        { numRuns: 5 },
      );
    },
  );

  it("every stable half passes 0 dB far inside its band", () => {
    fc.assert(
      fc.property(halves, sampleRates, (half, sampleRateHz) => {
        expect(at(crossoverSections(half, "low-pass", sampleRateHz), sampleRateHz, 1e-3)).toBeCloseTo(0, 6);
        const top = sampleRateHz / 2 - 1e-3;
        expect(at(crossoverSections(half, "high-pass", sampleRateHz), sampleRateHz, top)).toBeCloseTo(0, 6);
      }),
      { numRuns: 60 },
    );
  });
});

describe("filters", () => {
  it("never give NaN or infinity, at any legal setting", () => {
    const extreme = fc
      .record({
        kind: fc.constantFrom(...FILTER_KIND_NAMES),
        frequencyHz: fc.oneof(logarithmic(0.1, 15_999), fc.constantFrom(0.1, 15_999.999)),
        gainDb: fc.constantFrom(-60, -0.001, 0, 60),
        q: fc.constantFrom(1e-6, 1, 1000),
        order: fc.constantFrom(1, 2),
      })
      .map((settings) => settings as ParametricFilter);
    fc.assert(
      fc.property(fc.array(extreme, { maxLength: 40 }), sampleRates, (list, sampleRateHz) => {
        const axis = frequencyAxis(sampleRateHz, [1e-3, 0.1, 10, 1000, 15_999.999]);
        const sections = list.flatMap((filter) => filterSections(filter, sampleRateHz));
        const { re, im } = cascadeResponse(sections, axis);
        expect([...re, ...im, ...cascadeGroupDelayMs(sections, axis)].every(Number.isFinite)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  it.each([
    ["the lowest frequency", 0.1],
    ["the last number below half the sample rate", 96_000 * (1 - Number.EPSILON / 2)],
  ])("stay finite when every place of a unit is taken by a filter at %s", (_, frequencyHz) => {
    const axis = frequencyAxis(192_000, [1e-3, 0.1, 1000, 95_999.999]);
    for (const kind of FILTER_KIND_NAMES) {
      const filter = { kind, frequencyHz, gainDb: 3, q: 1, order: 2 } as ParametricFilter;
      const sections = new Array<ParametricFilter>(95)
        .fill(filter)
        .flatMap((f) => filterSections(f, 192_000));
      const { re, im } = cascadeResponse(sections, axis);
      expect([...re, ...im].every(Number.isFinite)).toBe(true);
    }
  });

  it("have a finite level where they pass nothing, and where their gains exceed what a double can square", () => {
    const notch = filterSections({ kind: "notch", frequencyHz: 1000, q: 1 }, 48_000);
    const axis = frequencyAxis(48_000, [1000]);
    expect(magnitudeDb({ re: Float64Array.of(0), im: Float64Array.of(0) })[0]).toBeCloseTo(SILENCE_DB, 9);
    expect(magnitudeDb(cascadeResponse([...notch, ...notch], axis))[0]).toBeGreaterThanOrEqual(
      SILENCE_DB - 1e-9,
    );
    const peak = filterSections({ kind: "peaking", frequencyHz: 1000, gainDb: 60, q: 1 }, 48_000);
    const all = new Array<Section>(60).fill(peak[0]!);
    expect(magnitudeDb(cascadeResponse(all, axis))[0]).toBeCloseTo(3600, 6);
  });

  it("give the same in any order of the cascade", () => {
    const pair = fc
      .array(filters, { minLength: 2, maxLength: 20 })
      .chain((list) =>
        fc
          .shuffledSubarray(list, { minLength: list.length, maxLength: list.length })
          .map((other) => [list, other] as const),
      );
    fc.assert(
      fc.property(pair, sampleRates, ([list, other], sampleRateHz) => {
        const axis = frequencyAxis(sampleRateHz);
        const [a, b] = [list, other].map((items) =>
          cascadeResponse(
            items.flatMap((filter) => filterSections(filter, sampleRateHz)),
            axis,
          ),
        );
        a!.re.forEach((re, k) => {
          const size = Math.hypot(re, a!.im[k]!);
          expect(Math.hypot(re - b!.re[k]!, a!.im[k]! - b!.im[k]!)).toBeLessThanOrEqual(
            1e-12 * size + 1e-300,
          );
        });
      }),
      { numRuns: 50 },
    );
  });

  it("peaking and shelves at +g and −g cancel", () => {
    const kinds = fc.constantFrom("peaking", "low-shelf", "high-shelf");
    fc.assert(
      fc.property(filters, kinds, sampleRates, (settings, kind, sampleRateHz) => {
        const boost = { ...settings, kind, gainDb: 7.3 } as ParametricFilter;
        const cut = { ...settings, kind, gainDb: -7.3 } as ParametricFilter;
        const sections = [boost, cut].flatMap((filter) => filterSections(filter, sampleRateHz));
        const { re, im } = cascadeResponse(sections, frequencyAxis(sampleRateHz));
        expect(largest(re.map((x) => x - 1))).toBeLessThan(1e-11);
        expect(largest(im)).toBeLessThan(1e-11);
      }),
      { numRuns: 50 },
    );
  });

  it("all-pass sections pass everything at 0 dB and turn the phase by −90° or −180° at their frequency", () => {
    fc.assert(
      fc.property(filters, fc.constantFrom(1, 2), sampleRates, (settings, order, sampleRateHz) => {
        const allPass = { ...settings, kind: "all-pass", order } as ParametricFilter;
        const sections = filterSections(allPass, sampleRateHz);
        expect(largest(levelsDb(cascadeResponse(sections, frequencyAxis(sampleRateHz))))).toBeLessThan(1e-11);
        const center = cascadeResponse(sections, frequencyAxis(sampleRateHz, [settings.frequencyHz]));
        expect(phaseDistance(phaseOf(center)[0]!, (-Math.PI / 2) * order)).toBeLessThan(1e-9);
      }),
      { numRuns: 50 },
    );
  });

  it("band-pass passes its center at 0 dB and is −3.01 dB at the edges of f/Q of the prototype", () => {
    fc.assert(
      fc.property(logarithmic(20, 4000), logarithmic(0.3, 30), (frequencyHz, q) => {
        const sections = filterSections({ kind: "band-pass", frequencyHz, q }, 48_000);
        expect(at(sections, 48_000, frequencyHz)).toBeCloseTo(0, 10);
        const corner = Math.tan((Math.PI * frequencyHz) / 48_000);
        for (const sign of [-1, 1]) {
          const edge = Math.sqrt(1 + 1 / (4 * q * q)) + sign / (2 * q);
          const edgeHz = (48_000 / Math.PI) * Math.atan(corner * edge);
          expect(at(sections, 48_000, edgeHz)).toBeCloseTo(-10 * Math.log10(2), 9);
        }
      }),
    );
  });

  it("do nothing when bypassed", () => {
    fc.assert(
      fc.property(filters, (filter) => {
        expect(filterSections({ ...filter, enabled: false }, 48_000)).toEqual([]);
      }),
    );
  });

  it("move toward the analogue prototype when the sample rate doubles", () => {
    // |H(jω)| of the Cookbook's peaking prototype, no transform.
    const frequencyHz = 5000;
    const gainDb = 9;
    const q = 1.5;
    const a = 10 ** (gainDb / 40);
    const analogueDb = (hz: number) => {
      const w = hz / frequencyHz;
      return (
        10 * Math.log10(((1 - w * w) ** 2 + ((a * w) / q) ** 2) / ((1 - w * w) ** 2 + (w / (a * q)) ** 2))
      );
    };
    const frequenciesHz = frequencyGrid({ toHz: 15_000 });
    const errors = [48_000, 96_000, 192_000].map((sampleRateHz) => {
      const sections = filterSections({ kind: "peaking", frequencyHz, gainDb, q }, sampleRateHz);
      const levels = levelsDb(cascadeResponse(sections, frequencyAxis(sampleRateHz, frequenciesHz)));
      return largest(levels.map((db, k) => db - analogueDb(frequenciesHz[k]!)));
    });
    expect(errors[1]! / errors[0]!).toBeLessThan(0.3);
    expect(errors[2]! / errors[1]!).toBeLessThan(0.3);
  });

  it("give, run in time by their coefficients, the response that is computed", () => {
    const cases = fc.array(filters, { minLength: 1, maxLength: 4 }).map((list) =>
      // Long ringing would not fit into the taps.
      list.map((f) => ({ ...f, frequencyHz: Math.max(2000, f.frequencyHz), q: 0.9 }) as ParametricFilter),
    );
    fc.assert(
      fc.property(cases, (list) => {
        const axis = frequencyAxis(48_000);
        const sections = list.flatMap((filter) => filterSections(filter, 48_000));
        const expected = cascadeResponse(sections, axis);
        const got = firResponse({ taps: impulseResponse(sections, 4096) }, axis);
        expect(largestDistance(expected, got)).toBeLessThan(1e-10);
      }),
      { numRuns: 30 },
    );
  });
});

/** What a processor does: the difference equation of every section, one after the other. */
function impulseResponse(sections: readonly Section[], length: number): number[] {
  let signal = [1, ...new Array<number>(length - 1).fill(0)];
  for (const section of sections) {
    const { b, a } = digitalCoefficients(section);
    let [x1, x2, y1, y2] = [0, 0, 0, 0];
    signal = signal.map((x) => {
      const y = b[0] * x + b[1] * x1 + b[2] * x2 - a[1] * y1 - a[2] * y2;
      [x2, x1, y2, y1] = [x1, x, y1, y];
      return y;
    });
  }
  return signal;
}

function largestDistance(a: ComplexArray, b: ComplexArray): number {
  return Math.max(...a.re.map((re, k) => Math.hypot(re - b.re[k]!, a.im[k]! - b.im[k]!)));
}

describe("group delay", () => {
  it("is the slope of the phase: central differences agree", () => {
    fc.assert(
      fc.property(filters, sampleRates, (filter, sampleRateHz) => {
        const sections = filterSections({ ...filter, q: 0.8 } as ParametricFilter, sampleRateHz);
        for (const hz of [137, 2719]) {
          const step = hz * 1e-5;
          const phase = unwrapped(
            phaseOf(cascadeResponse(sections, frequencyAxis(sampleRateHz, [hz - step, hz + step]))),
          );
          const slopeMs = (-1000 * (phase[1]! - phase[0]!)) / (2 * Math.PI * 2 * step);
          const [delayMs] = cascadeGroupDelayMs(sections, frequencyAxis(sampleRateHz, [hz]));
          expect(Math.abs(delayMs! - slopeMs)).toBeLessThan(1e-4 * (Math.abs(delayMs!) + 0.1));
        }
      }),
      { numRuns: 100 },
    );
  });

  it("of a second-order all-pass integrates to one turn", () => {
    const frequenciesHz = Float64Array.from(
      { length: 200_001 },
      (_, k) => 1e-6 + (23_999.9999 * k) / 200_000,
    );
    const sections = filterSections({ kind: "all-pass", frequencyHz: 700, order: 2, q: 1 }, 48_000);
    const delays = cascadeGroupDelayMs(sections, frequencyAxis(48_000, frequenciesHz));
    const turns = delays.reduce((sum, ms) => sum + ms / 1000, 0) * (frequenciesHz[1]! - frequenciesHz[0]!);
    expect(turns).toBeCloseTo(1, 3);
  });

  it("of a Bessel low-pass is flat in its pass band", () => {
    const half = { family: "bessel", order: 6, frequencyHz: 1000, normalization: "phase" } as const;
    const sections = crossoverSections(half, "low-pass", 192_000);
    const delays = cascadeGroupDelayMs(
      sections,
      frequencyAxis(192_000, frequencyGrid({ fromHz: 20, toHz: 500 })),
    );
    expect(Math.max(...delays) / Math.min(...delays) - 1).toBeLessThan(1e-3);
  });
});

describe("delay", () => {
  it("adds linear phase and nothing else, also by fractions of a sample", () => {
    const delays = fc.double({ min: 0, max: 500, noNaN: true });
    fc.assert(
      fc.property(filters, delays, (filter, delayMs) => {
        const axis = frequencyAxis(48_000);
        const response = cascadeResponse(filterSections(filter, 48_000), axis);
        const delayed = delayedResponse(response, delayMs, axis);
        const [before, after] = [phaseOf(response), phaseOf(delayed)];
        axis.frequenciesHz.forEach((hz, k) => {
          const size = Math.hypot(response.re[k]!, response.im[k]!);
          expect(Math.abs(Math.hypot(delayed.re[k]!, delayed.im[k]!) / size - 1)).toBeLessThan(1e-12);
          const turn = (-2 * Math.PI * hz * delayMs) / 1000;
          expect(phaseDistance(after[k]!, before[k]! + turn)).toBeLessThan(1e-8);
        });
      }),
      { numRuns: 30 },
    );
  });

  it("of whole samples is an FIR with one tap", () => {
    const axis = frequencyAxis(96_000);
    const taps = [...new Array<number>(700).fill(0), 1];
    const one = cascadeResponse([], axis);
    expect(largestDistance(firResponse({ taps }, axis), delayedResponse(one, 700 / 96, axis))).toBeLessThan(
      1e-11,
    );
  });
});
