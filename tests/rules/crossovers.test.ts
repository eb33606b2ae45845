import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Configuration, Crossover, Polarity } from "../../src/model/index.ts";
import { type Edit, edited, validateConfiguration } from "../../src/rules/index.ts";
import { screen, unit } from "./rule-book-screen.ts";

/*
 * Two-way sums of crossover-response.json: computed with SciPy, and in agreement with the textbook rules of
 * Butterworth and of Linkwitz and Riley (JAES 24, 1976).
 */
interface SumCase {
  readonly id: string;
  readonly kind: string;
  readonly family: "butterworth" | "linkwitzRiley";
  readonly order: number;
  readonly cornerHz: number;
  readonly polarityForFlattestSum: Polarity | "either";
  readonly status: string;
}
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "../reference/crossover-response.json"), "utf8"),
) as { readonly cases: readonly SumCase[] };
const textbook = reference.cases.filter(({ kind, status }) => kind === "sum" && status.includes("textbook"));

const set = (at: string, value: unknown): Edit => ({ kind: "set", at, value });

function withCrossover(crossover: Crossover, polarity: Polarity): Configuration {
  return edited(screen, [
    set("/outputs/left-lf/lowPass", crossover),
    set("/outputs/left-hf/highPass", crossover),
    set("/outputs/left-hf/polarity", polarity),
  ]);
}

function codesAt(configuration: Configuration, code: string): readonly string[] {
  return validateConfiguration(configuration, { profile: unit })
    .filter((finding) => finding.code === code)
    .map(({ place }) => place.pointer);
}

describe("crossovers against published facts", () => {
  it.each(textbook.map((item) => [item.id, item] as const))("%s", (_id, item) => {
    const family = item.family === "linkwitzRiley" ? "linkwitz-riley" : "butterworth";
    const crossover: Crossover = { family, order: item.order, frequencyHz: item.cornerHz };
    const best = item.polarityForFlattestSum;
    for (const polarity of ["normal", "inverted"] as const) {
      const wrong = codesAt(withCrossover(crossover, polarity), "crossover/wrong-polarity");
      expect(wrong).toEqual(best === "either" || polarity === best ? [] : ["/outputs/1/polarity"]);
    }
    // Even-order Butterworth: +3.01 dB at best. Odd orders and Linkwitz-Riley: flat.
    const right = best === "either" ? "normal" : best;
    const uneven = codesAt(withCrossover(crossover, right), "crossover/uneven-sum");
    expect(uneven).toEqual(family === "butterworth" && item.order % 2 === 0 ? ["/outputs/1/highPass"] : []);
  });

  it("has cases of both families", () => {
    expect(textbook.length).toBeGreaterThanOrEqual(9);
  });

  it("says the depth of the hole", () => {
    const turned = edited(screen, [set("/outputs/center-hf/polarity", "inverted")]);
    const [finding] = validateConfiguration(turned, { profile: unit });
    expect(finding!.place.words).toBe("Screen center, hf way");
    expect(finding!.numbers.frequencyHz).toBeCloseTo(3150, -1);
    // Linkwitz-Riley of order 4: in phase, 0 dB but for what the mf way's own high-pass turns; else a null.
    expect(finding!.numbers.sumInvertedDb).toBeCloseTo(0, 0);
    expect(finding!.numbers.sumDb).toBeLessThan(-12);
  });

  it("warns of a high-pass below the loudspeaker's data in octaves", () => {
    const low = edited(screen, [
      set("/outputs/left-lf/lowPass/frequencyHz", 350),
      set("/outputs/left-hf/highPass/frequencyHz", 350),
    ]);
    const finding = validateConfiguration(low, { profile: unit }).find(
      ({ code }) => code === "crossover/high-pass-below-safe",
    );
    expect(finding).toMatchObject({
      severity: "error",
      kind: "protection",
      place: { words: "Screen left, hf way, high-pass" },
      numbers: { frequencyHz: 350, safeHz: 700, octaves: 1 },
    });
  });
});
