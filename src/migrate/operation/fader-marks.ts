import type { PlanPlace } from "../../model/index.ts";
import { faderGrid, faderLevelDb, faderMarkAt, gridContains, gridNearest } from "../../profile/index.ts";
import { printDb, printNumber } from "../../units/index.ts";
import { figure } from "../figure.ts";
import type { Part, StepContext, StepItem } from "../step.ts";
import { place } from "../words.ts";

/** A mark on the new scale for a mark on the old one: the same level in dB, on the new scale's step. */
export function convertMark({ from, to }: Pick<StepContext, "from" | "to">, mark: number) {
  const grid = faderGrid(to.fader);
  const levelDb = faderLevelDb(from.fader, mark);
  const same = JSON.stringify(from.fader) === JSON.stringify(to.fader) && gridContains(grid, mark);
  const now = same ? mark : gridNearest(grid, faderMarkAt(to.fader, levelDb));
  return { mark: now, levelDb, errorDb: faderLevelDb(to.fader, now) - levelDb };
}

/** Errors below this are no change of level: far below what anybody hears. */
const SAME_LEVEL_DB = 0.05;

export function markItem(at: PlanPlace, before: number, converted: ReturnType<typeof convertMark>): StepItem {
  const { mark, levelDb, errorDb } = converted;
  if (mark === before && Math.abs(errorDb) < SAME_LEVEL_DB) {
    return { outcome: "kept", place: at, words: `Mark ${before} as before.`, claims: [at.address] };
  }
  return {
    outcome: Math.abs(errorDb) < SAME_LEVEL_DB ? "restaged" : "rounded",
    place: at,
    words: `Mark ${printNumber(before, 1)} (${printDb(levelDb)}) becomes mark ${printNumber(mark, 1)} on the new scale (${printDb(levelDb + errorDb)}).`,
    numbers: { fromMark: before, toMark: mark, errorDb: figure(errorDb, 3) },
    claims: [at.address],
  };
}

/** The fader at start-up and on every recall. */
export function carryFader(context: StepContext): Part {
  const { next } = context;
  const start = convertMark(context, next.operation.faderMark);
  const items: StepItem[] = [
    markItem(place("operation/faderMark", "Fader at start-up"), next.operation.faderMark, start),
  ];
  const presets = next.presets.map((preset) => {
    if (preset.faderMark === undefined) return preset;
    const converted = convertMark(context, preset.faderMark);
    const at = place(`presets/${preset.id}/faderMark`, `Preset '${preset.label}', fader`);
    items.push(markItem(at, preset.faderMark, converted));
    return { ...preset, faderMark: converted.mark };
  });
  return {
    next: { ...next, presets, operation: { ...next.operation, faderMark: start.mark } },
    items,
    questions: [],
  };
}
