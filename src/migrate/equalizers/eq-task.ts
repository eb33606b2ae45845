import { canonicalHash } from "../../canonical/index.ts";
import type { EqBand, FilterAbility, GraphicAbility, GraphicEq } from "../../model/index.ts";

/** A filter without its key: equal filters are equal whatever they are called. */
export type EqFilter = EqBand extends infer B
  ? B extends EqBand
    ? Omit<B, "id" | "enabled">
    : never
  : never;

/** An equalizer to be carried over: what is active of it, and what the other unit offers. Equal tasks are done once. */
export interface EqTask {
  readonly source: {
    readonly sampleRateHz: number;
    readonly graphic?: Pick<GraphicEq, "layout" | "gainsDb">;
    /** Quality factor of the graphic's bands, where the unit states one. */
    readonly graphicQ?: number;
    readonly filters: readonly EqFilter[];
  };
  readonly target: {
    readonly sampleRateHz: number;
    readonly graphic?: GraphicAbility;
    /** With as many filters as are free for it. */
    readonly filters?: FilterAbility;
  };
  readonly effort: "quick" | "thorough";
}

/** What a task came to. */
export interface EqFit {
  readonly graphic?: Pick<GraphicEq, "layout" | "gainsDb">;
  readonly filters: readonly EqFilter[];
  readonly method: "copied" | "rounded" | "refitted";
  readonly rmsDb: number;
  readonly maxDb: number;
  readonly maxAtHz: number;
}

/** Results that are there already, and the way to get others. Equal tasks give equal fits, wherever they are computed. */
export interface EqFits {
  readonly fit: (task: EqTask) => EqFit;
}

/** The identity of a task. */
export function eqTaskKey(task: EqTask): string {
  return canonicalHash(task);
}

/** Keeps the fit of every task that was asked for, and starts with those that are known. */
export function rememberedFits(
  compute: (task: EqTask) => EqFit,
  known: ReadonlyMap<string, EqFit> = new Map(),
): EqFits {
  const fits = new Map(known);
  return {
    fit: (task) => {
      const key = eqTaskKey(task);
      const there = fits.get(key) ?? compute(task);
      fits.set(key, there);
      return there;
    },
  };
}
