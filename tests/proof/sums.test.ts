import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Configuration, Crossover } from "../../src/model/index.ts";
import { prove } from "../../src/proof/index.ts";
import { changed, item, small } from "./samples.ts";

interface SumCase {
  readonly id: string;
  readonly kind: string;
  readonly family: string;
  readonly order: number;
  readonly cornerHz: number;
  readonly norm?: "phase" | "mag";
  readonly sampleRateHz: number;
  readonly phaseLowMinusHighAtCornerDeg: number;
}

/** Two-way sums computed with SciPy from the published families; see tests/reference/README.md. */
const CASES = (
  JSON.parse(
    readFileSync(join(import.meta.dirname, "..", "reference", "crossover-response.json"), "utf8"),
  ) as { readonly cases: readonly SumCase[] }
).cases.filter(({ kind }) => kind === "sum");

function half({ family, order, cornerHz, norm }: SumCase): Crossover {
  return {
    family: family === "linkwitzRiley" ? "linkwitz-riley" : (family as Crossover["family"]),
    order,
    frequencyHz: cornerHz,
    ...(norm !== undefined && {
      normalization: norm === "mag" ? ("magnitude" as const) : ("phase" as const),
    }),
  };
}

/** The small screen's left loudspeaker with a crossover, and nothing else but gains and delays. */
function twoWay(
  test: SumCase,
  hf: { readonly delayMs?: number; readonly inverted?: boolean } = {},
): Configuration {
  return changed(small, (draft) => {
    draft.unit.sampleRateHz = test.sampleRateHz;
    const low = item(draft.outputs, "left-lf");
    const high = item(draft.outputs, "left-hf");
    delete low.highPass;
    delete high.lowPass;
    low.lowPass = half(test);
    high.highPass = half(test);
    low.polarity = "normal";
    high.polarity = hf.inverted ? "inverted" : "normal";
    high.delayMs += hf.delayMs ?? 0;
  });
}

const unit = { latencyMs: 0 };

function leftSum(before: Configuration, after: Configuration) {
  const proof = prove(before, after, { beforeUnit: unit, afterUnit: unit });
  return proof.sums.find(({ loudspeakerId }) => loudspeakerId === "left")!;
}

describe("the sum of two ways", () => {
  it("is checked against enough published cases", () => expect(CASES.length).toBeGreaterThan(10));

  it.each(CASES)(
    "has the phase at the crossover that SciPy gives, and half a turn more turned over: $id",
    (test) => {
      const { crossovers, verdict } = leftSum(twoWay(test), twoWay(test, { inverted: true }));
      const [crossover] = crossovers;
      const expected = test.phaseLowMinusHighAtCornerDeg;
      expect(turnsApart(crossover!.phaseBeforeDeg, expected)).toBeLessThan(0.5);
      expect(turnsApart(crossover!.phaseAfterDeg!, expected + 180)).toBeLessThan(0.5);
      expect(crossover!.frequencyBeforeHz / test.cornerHz).toBeCloseTo(1, test.norm === "phase" ? 0 : 2);
      expect(verdict).toBe("audible");
    },
  );

  it("turns with a delay by 360° · f · τ, whatever delays and gains the settings hold", () => {
    const test = CASES.find(({ id }) => id === "sum-linkwitzRiley4-500Hz-48000")!;
    // 0.1 ms at 500 Hz is 18°: the upper way lags, so the lower one leads by as much more.
    const { crossovers } = leftSum(twoWay(test), twoWay(test, { delayMs: 0.1 }));
    expect(crossovers[0]!.phaseBeforeDeg).toBeCloseTo(0, 1);
    expect(crossovers[0]!.phaseAfterDeg).toBeCloseTo(18, 0);
  });

  it("is flat for Linkwitz-Riley ways, and cancels at the crossover with one turned over", () => {
    const test = CASES.find(({ id }) => id === "sum-linkwitzRiley4-500Hz-48000")!;
    const { crossovers } = leftSum(twoWay(test), twoWay(test, { inverted: true }));
    expect(crossovers[0]!.rippleBeforeDb).toBeLessThan(0.01);
    expect(crossovers[0]!.rippleAfterDb).toBeGreaterThan(20);
  });

  it("changes with the level of one way against the other, and not with that of both", () => {
    const test = CASES.find(({ id }) => id === "sum-linkwitzRiley4-500Hz-48000")!;
    const before = twoWay(test);
    const oneLouder = changed(before, ({ outputs }) => {
      item(outputs, "left-hf").gainDb += 3;
    });
    expect(leftSum(before, oneLouder)).toMatchObject({ verdict: "audible" });
    const bothLouder = changed(oneLouder, ({ outputs }) => {
      item(outputs, "left-lf").gainDb += 3;
    });
    const both = leftSum(before, bothLouder);
    expect(both.verdict).toBe("equal");
    expect(both.changeDb).toBeCloseTo(0, 2);
  });

  it("is missing when a way is, and says so of ways that no longer cross", () => {
    const test = CASES.find(({ id }) => id === "sum-linkwitzRiley4-500Hz-48000")!;
    const before = twoWay(test);
    const noHf = changed(before, (draft) => {
      draft.outputs = draft.outputs.filter(({ id }) => id !== "left-hf");
    });
    const gone = leftSum(before, noHf);
    expect(gone.verdict).toBe("missing");
    expect(gone.changeDb).toBeUndefined();
    expect(gone.crossovers[0]!.frequencyAfterHz).toBeUndefined();
  });
});

function turnsApart(aDeg: number, bDeg: number): number {
  return Math.abs(((((aDeg - bDeg) % 360) + 540) % 360) - 180);
}
