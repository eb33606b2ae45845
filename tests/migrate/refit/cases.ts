import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { RefitFilter, RefitSource } from "../../../src/migrate/refit/index.ts";
import type { FilterAbility } from "../../../src/model/index.ts";

/** A curve to be had again by peaking filters on "steps A", with the lowest rms errors known in dB, by number of filters. */
export interface RefitCase {
  readonly id: string;
  readonly source: RefitSource;
  readonly targetSampleRateHz: number;
  readonly bestRmsDb: Readonly<Record<string, number>>;
}

interface ReferenceFile {
  readonly forward: readonly {
    readonly id: string;
    readonly sourceFs: number;
    readonly targetFs: number;
    readonly source: {
      readonly graphicGains: readonly number[];
      readonly shelves: readonly { type: "lowshelf" | "highshelf"; f: number; gain: number; q: number }[];
    };
    readonly byBands: Readonly<Record<string, { bestKnown: { stepsA: { rms: number } } }>>;
  }[];
}

interface MoreFile {
  readonly cases: readonly {
    readonly id: string;
    readonly sourceFs: number;
    readonly targetFs: number;
    readonly graphicGains?: readonly number[];
    readonly filters: readonly { kind: RefitFilter["kind"]; f: number; gain: number; q: number }[];
    readonly bestRms: Readonly<Record<string, number>>;
  }[];
}

/** Q of the graphics of both files. */
export const GRAPHIC_Q = 2 ** (1 / 6) / (2 ** (1 / 3) - 1);

/** "Steps A" of both files: frequencies on 1/24 octaves, gains and Q on tenths. */
export const STEPS_A: Omit<FilterAbility, "bands"> = {
  kinds: ["peaking"],
  frequencyHz: { kind: "log", min: 20, max: 20_000, referenceHz: 1000, perOctave: 24 },
  gainDb: { kind: "step", min: -12, max: 12, step: 0.1 },
  q: { kind: "step", min: 0.4, max: 12, step: 0.1 },
};

/** The reference: best-known results of a long search, with the conventions that the file itself states. */
export function referenceCases(): readonly RefitCase[] {
  const { forward } = read("eq-refit-cases.json") as ReferenceFile;
  return forward.map(({ id, sourceFs, targetFs, source, byBands }) => ({
    id,
    source: sourceOf(
      sourceFs,
      source.graphicGains,
      source.shelves.map(({ type, ...numbers }) => {
        return { kind: type === "lowshelf" ? "low-shelf" : "high-shelf", ...numbers };
      }),
    ),
    targetSampleRateHz: targetFs,
    bestRmsDb: Object.fromEntries(
      Object.entries(byBands).map(([bands, { bestKnown }]) => [bands, bestKnown.stepsA.rms]),
    ),
  }));
}

/** More cases of the same kind; their best-known results are from our own long search, no outside source. */
export function moreCases(): readonly RefitCase[] {
  const { cases } = read("eq-refit-more-cases.json") as MoreFile;
  return cases.map(({ id, sourceFs, targetFs, graphicGains, filters, bestRms }) => ({
    id,
    source: sourceOf(sourceFs, graphicGains, filters),
    targetSampleRateHz: targetFs,
    bestRmsDb: bestRms,
  }));
}

function sourceOf(
  sampleRateHz: number,
  gainsDb: readonly number[] | undefined,
  filters: MoreFile["cases"][number]["filters"],
): RefitSource {
  return {
    sampleRateHz,
    ...(gainsDb === undefined ? {} : { graphic: { layout: "third-octave-27", gainsDb } }),
    graphicQ: GRAPHIC_Q,
    filters: filters.map(
      ({ kind, f, gain, q }) => ({ kind, frequencyHz: f, gainDb: gain, q }) as RefitFilter,
    ),
  };
}

function read(name: string): unknown {
  return JSON.parse(readFileSync(join(import.meta.dirname, "../../reference", name), "utf8"));
}
