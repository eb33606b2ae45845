import { type EqBand, type EqFitReport, leavesOf } from "../../../model/index.ts";
import { printDb, printHz } from "../../../words/index.ts";
import { figure } from "../figure.ts";
import type { StepItem } from "../step.ts";
import type { EqFit } from "./eq-task.ts";
import { type Equalizer, type EqualizerInput, isActive } from "./equalizer.ts";

/** What became of every value of an equalizer, but of those that are accounted for with their own kind. */
export function equalizerItems(
  input: EqualizerInput,
  { fit, now, own }: { readonly fit: EqFit; readonly now: Equalizer; readonly own: readonly EqBand[] },
): readonly StepItem[] {
  const { at, names, equalizer } = input;
  const done = new Set(own.map(({ id }) => id));
  const before = {
    ...(names.graphic === undefined || equalizer.graphic === undefined
      ? {}
      : { [names.graphic]: equalizer.graphic }),
    [names.parametric]: equalizer.parametric.filter(({ id }) => !done.has(id)),
  };
  const after = leavesOf({
    ...(names.graphic === undefined || now.graphic === undefined ? {} : { [names.graphic]: now.graphic }),
    [names.parametric]: now.parametric,
  });
  const idle = new Set(equalizer.parametric.filter((band) => !isActive(band)).map(({ id }) => id));
  const groups = new Map<StepItem["outcome"], string[]>();
  for (const [address, value] of leavesOf(before)) {
    const [part, id] = address.split("/");
    const bypassed = part === names.parametric ? idle.has(id ?? "") : equalizer.graphic?.enabled === false;
    const same = after.get(address) === value && (fit.method !== "refitted" || bypassed);
    const gone = !after.has(address);
    const outcome = same
      ? "kept"
      : bypassed && gone
        ? "lost"
        : bypassed
          ? "rounded"
          : fit.method === "refitted"
            ? "refitted"
            : "rounded";
    groups.set(outcome, [...(groups.get(outcome) ?? []), `${at.address}/${address}`]);
  }
  return [...groups].map(([outcome, claims]) => ({
    outcome,
    place: at,
    words: wordsOf(outcome, fit, now),
    numbers: outcome === "kept" || outcome === "lost" ? {} : figures(fit),
    claims,
  }));
}

function wordsOf(outcome: StepItem["outcome"], fit: EqFit, now: Equalizer): string {
  const errors = `rms ${printDb(fit.rmsDb, 3)}, largest ${printDb(fit.maxDb, 2)} at ${printHz(fit.maxAtHz)}`;
  switch (outcome) {
    case "kept":
      return "The same filters as before.";
    case "lost":
      return "Bypassed filters, which do nothing, find no room.";
    case "rounded":
      return `On the unit's steps: ${errors}.`;
    default:
      return `By ${now.parametric.length} filters${now.graphic === undefined ? "" : " and the graphic bands"}: ${errors}.`;
  }
}

function figures(fit: EqFit): Record<string, number> {
  return { rmsDb: figure(fit.rmsDb, 4), maxDb: figure(fit.maxDb, 3), maxAtHz: figure(fit.maxAtHz, 1) };
}

/** The line of an equalizer in the plan's table of fits. */
export function equalizerReport({ at, effort }: EqualizerInput, fit: EqFit): EqFitReport {
  return {
    address: at.address,
    words: at.words,
    method: fit.method,
    effort,
    bandsUsed: fit.filters.length,
    rmsDb: figure(fit.rmsDb, 4),
    maxDb: figure(fit.maxDb, 3),
    maxAtHz: figure(fit.maxAtHz, 1),
  };
}
