import type { AutomationItem, PlanPlace } from "../../../model/index.ts";
import { faderGrid, faderLevelDb, faderMarkAt, gridContains, gridNearest } from "../../../profile/index.ts";
import { printDb, printDbChange, printNumber } from "../../../words/index.ts";
import { figure } from "../figure.ts";
import { NOT_THIS_UNIT } from "../not-this-unit.ts";
import { ask, outcomeOf, type Part, type StepContext, type StepItem, type Verdict } from "../step.ts";
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

export function markItem(
  at: PlanPlace,
  before: number,
  converted: ReturnType<typeof convertMark>,
  verdict?: Verdict,
): StepItem {
  const { mark, levelDb, errorDb } = converted;
  if (mark === before && Math.abs(errorDb) < SAME_LEVEL_DB) {
    return { outcome: "kept", place: at, words: `Mark ${before} as before.`, claims: [at.address] };
  }
  const asked = verdict !== undefined && isOff(converted) ? verdict : undefined;
  return {
    outcome:
      asked !== undefined
        ? outcomeOf(asked, "rounded")
        : Math.abs(errorDb) < SAME_LEVEL_DB
          ? "restaged"
          : "rounded",
    place: at,
    words: `Mark ${printNumber(before, 1)} (${printDb(levelDb)}) becomes mark ${printNumber(mark, 1)} on the new scale (${printDb(levelDb + errorDb)}).`,
    numbers: { fromMark: before, toMark: mark, errorDb: figure(errorDb, 3) },
    claims: [at.address],
    ...(asked === undefined ? {} : { questionId: asked.question.id }),
  };
}

/** A fader may come to stand off by this much without a question. Common practice, no source. */
const NOT_ASKED_DB = 0.3;

function isOff({ errorDb }: ReturnType<typeof convertMark>): boolean {
  return Math.abs(errorDb) > NOT_ASKED_DB;
}

/** A fader setting on the old scale: what sets it, in words and by key. */
interface MarkSetting {
  readonly words: string;
  readonly of: { readonly presetId?: string; readonly automationId?: string };
  readonly mark: number;
}

/** Asks once about all of some fader settings that fall between the marks of the new scale. */
function askMarks(
  context: StepContext,
  settings: readonly MarkSetting[],
  { id, at, changes }: { readonly id: string; readonly at: PlanPlace; readonly changes: string },
): Verdict | undefined {
  const off = settings
    .map(({ words, of, mark }) => ({ words, of, converted: convertMark(context, mark) }))
    .filter(({ converted }) => isOff(converted));
  if (off.length === 0) return undefined;
  const most = Math.max(...off.map(({ converted }) => Math.abs(converted.errorDb)));
  const each = off
    .map(({ words, converted }) => `${words}: ${printDbChange(converted.errorDb, 1)}`)
    .join("; ");
  return ask(context, {
    id,
    place: at,
    words: `${off.length === 1 ? "A fader setting falls" : `${off.length} fader settings fall`} between the marks of the new scale, by up to ${printDb(most)}. Is the nearest mark right?`,
    options: [
      {
        id: "nearest-mark",
        words: "The nearest mark is taken.",
        consequence: `The level after ${changes} changes: ${each}.`,
        numbers: { settings: off.length, largestDb: figure(most, 2) },
        sets: { faderMarks: off.map(({ of, converted }) => ({ ...of, faderMark: converted.mark })) },
      },
      NOT_THIS_UNIT,
    ],
    recommended: { optionId: "nearest-mark", reason: "the fader is moved by hand anyway." },
    unanswered: { optionId: "nearest-mark", words: "The plan takes the nearest mark." },
  });
}

/** The question about what automation sets the fader to. */
export function askAutomationMarks(
  context: StepContext,
  items: readonly AutomationItem[],
): Verdict | undefined {
  const settings = items.flatMap(({ id, label, action }): MarkSetting[] =>
    action.kind === "set-fader"
      ? [{ words: `automation '${label}'`, of: { automationId: id }, mark: action.faderMark }]
      : [],
  );
  return askMarks(context, settings, {
    id: "automation/faderMarks",
    at: place("automation", "Automation"),
    changes: "its trigger",
  });
}

/** The fader at start-up and on every recall. */
export function carryFader(context: StepContext): Part {
  const { next } = context;
  const settings = [
    { words: "start-up", of: {}, mark: next.operation.faderMark },
    ...next.presets.flatMap(({ id, label, faderMark }) =>
      faderMark === undefined ? [] : [{ words: `preset '${label}'`, of: { presetId: id }, mark: faderMark }],
    ),
  ];
  const verdict = askMarks(context, settings, {
    id: "operation/faderMarks",
    at: place("operation/faderMark", "Fader"),
    changes: "a recall",
  });
  const start = convertMark(context, next.operation.faderMark);
  const items: StepItem[] = [
    markItem(place("operation/faderMark", "Fader at start-up"), next.operation.faderMark, start, verdict),
  ];
  const presets = next.presets.map((preset) => {
    if (preset.faderMark === undefined) return preset;
    const converted = convertMark(context, preset.faderMark);
    const at = place(`presets/${preset.id}/faderMark`, `Preset '${preset.label}', fader`);
    items.push(markItem(at, preset.faderMark, converted, verdict));
    return { ...preset, faderMark: converted.mark };
  });
  return {
    next: { ...next, presets, operation: { ...next.operation, faderMark: start.mark } },
    items,
    questions: verdict === undefined ? [] : [verdict.question],
  };
}
