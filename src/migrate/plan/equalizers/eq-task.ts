import { canonicalHash } from "../../../base/canonical/index.ts";
import {
  type Refit,
  type RefitFilter,
  type RefitSource,
  type RefitTarget,
  refitEqualizer,
} from "../../refit/index.ts";

/** A filter without its key: equal filters are equal whatever they are called. */
export type EqFilter = RefitFilter;

/** An equalizer to be carried over: what is active of it, and what the other unit offers. Equal tasks are done once. */
export interface EqTask {
  readonly source: RefitSource;
  /** With as many filters as are free for it. */
  readonly target: RefitTarget;
  readonly effort: "quick" | "thorough";
}

/** What a task came to. */
export type EqFit = Refit;

/**
 * Nobody tunes a hall by ear below 40 Hz or above 16 kHz, but a filter must not do there what nobody asked for; besides, a
 * shelf above 16 kHz turns the phase at 8 kHz.
 */
const WEIGHT_OUTSIDE = 0.1;

/** Does a task; equal tasks give equal fits, wherever and whenever. */
export function fitEqualizer({ source, target, effort }: EqTask): EqFit {
  return refitEqualizer(source, target, { effort, weightOutside: WEIGHT_OUTSIDE });
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
