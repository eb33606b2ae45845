import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import type { CrossoverHalf, CrossoverSide, ParametricFilter } from "../../src/acoustics/index.ts";
import type { ComplexArray } from "../../src/base/numeric/index.ts";

/** A file of sourced values in tests/reference/, described by its README.md. */
export function readReference<File>(name: string): File {
  return JSON.parse(readFileSync(join(import.meta.dirname, "../reference", `${name}.json`), "utf8")) as File;
}

export interface BiquadCase {
  readonly id: string;
  readonly type: string;
  readonly sampleRateHz: number;
  readonly frequencyHz: number;
  readonly gainDb?: number;
  readonly q?: number;
  readonly shelfSlope?: number;
  readonly b: readonly number[];
  readonly a: readonly number[];
  readonly magnitudeDb: readonly (number | null)[];
  readonly phaseRad: readonly number[];
  readonly known: {
    readonly dcDb: number | null;
    readonly f0Db: number | null;
    readonly nyquistDb: number | null;
  };
}

const KINDS: Readonly<Record<string, ParametricFilter["kind"]>> = {
  peaking: "peaking",
  lowShelf: "low-shelf",
  highShelf: "high-shelf",
  lowPass: "low-pass",
  highPass: "high-pass",
  allPass: "all-pass",
  notch: "notch",
};

/** The reference files name a section by type, f0, q or slope; the engine by kind and unit. */
export function filterOf(c: {
  type: string;
  frequencyHz: number;
  gainDb?: number;
  q?: number;
  shelfSlope?: number;
}): ParametricFilter {
  const kind = KINDS[c.type];
  if (kind === undefined) throw new Error(`no kind for ${c.type}`);
  const filter: Record<string, unknown> = { kind, frequencyHz: c.frequencyHz };
  if (c.gainDb !== undefined) filter.gainDb = c.gainDb;
  if (c.shelfSlope === undefined) filter.q = c.q;
  else filter.slope = c.shelfSlope;
  if (kind === "all-pass") filter.order = 2;
  return filter as unknown as ParametricFilter;
}

/** The reference files' names of a crossover half. */
export function crossoverOf(c: {
  family: string;
  order: number;
  cornerHz: number;
  norm?: string;
}): CrossoverHalf {
  const family = c.family === "linkwitzRiley" ? "linkwitz-riley" : (c.family as CrossoverHalf["family"]);
  const half = { family, order: c.order, frequencyHz: c.cornerHz };
  return c.norm === undefined ? half : { ...half, normalization: c.norm === "mag" ? "magnitude" : "phase" };
}

export function sideOf(type: string): CrossoverSide {
  return type === "lowPass" ? "low-pass" : "high-pass";
}

export function levelsDb(response: ComplexArray): Float64Array {
  return response.re.map((re, k) => 10 * Math.log10(re ** 2 + response.im[k]! ** 2));
}

/** Smallest angle between two phases, whole turns left out. */
export function phaseDistance(a: number, b: number): number {
  return Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));
}

/** Keeps the largest deviations seen, so that a table's test can hold them to the tolerance that is claimed. */
export class Worst {
  magnitudeDb = 0;
  phaseRad = 0;

  /** Compares a response with a table; below −100 dB the amplitude itself, to 1e-9. */
  see(
    response: ComplexArray,
    expected: { magnitudeDb: readonly (number | null)[]; phaseRad?: readonly number[] | undefined },
  ): void {
    const levels = levelsDb(response);
    expect(levels).toHaveLength(expected.magnitudeDb.length);
    levels.forEach((level, k) => {
      const expectedDb = expected.magnitudeDb[k] ?? Number.NEGATIVE_INFINITY;
      expect(Number.isNaN(level)).toBe(false);
      if (expectedDb <= -100) {
        expect(Math.abs(10 ** (level / 20) - 10 ** (expectedDb / 20))).toBeLessThan(1e-9);
        return;
      }
      this.magnitudeDb = Math.max(this.magnitudeDb, Math.abs(level - expectedDb));
      if (expected.phaseRad !== undefined) {
        const phase = Math.atan2(response.im[k]!, response.re[k]!);
        this.phaseRad = Math.max(this.phaseRad, phaseDistance(phase, expected.phaseRad[k]!));
      }
    });
  }
}
