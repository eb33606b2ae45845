import { renderText, type ScreenMigration } from "../../src/public/boothkeep.ts";
import { errorWords, paperPrefix, rulingOut } from "../../src/public/migrate.ts";
import { proofSummary } from "../../src/public/report.ts";
import { wrap } from "../wrap.ts";
import { besidePlan } from "./beside-plan.ts";
import type { MigrateOptions } from "./screen.ts";

export interface OutcomeOptions {
  readonly options: MigrateOptions;
  /** Files that were written. */
  readonly written: readonly string[];
  /** The hash that binds configuration, sheets and proof. */
  readonly setSha256: string;
  readonly columns: number;
  readonly color: boolean;
}

/** How a migration ended: proof and check once all is decided, the files, and what to do next. */
export function migrationOutcome(migration: ScreenMigration, how: OutcomeOptions): string {
  const { written, setSha256, columns } = how;
  return [
    ...verdictLines(migration, how),
    ...written.map((name) => `Written: ${name}`),
    ...(how.options.sheets === undefined ? [] : [wrap(setWords(migration, setSha256), columns)]),
    ...nextSentences(migration, how.options).map((text) => wrap(text, columns)),
  ].join("\n");
}

function verdictLines(migration: ScreenMigration, { columns, color }: OutcomeOptions): readonly string[] {
  const { state, plan, proof, errors, unfounded } = migration;
  if (state === "decisions-missing") {
    return [wrap("Proof and check count when every question is decided.", columns)];
  }
  if (state === "ruled-out") {
    const ids = rulingOut(plan.questions).map(({ id }) => id);
    return [
      wrap(`Ruled out: the answers to ${ids.join(", ")} say that this unit is not to be used here.`, columns),
    ];
  }
  return [
    renderText(proofSummary(proof), { columns, color }),
    ...(errors.length === 0 ? ["Check: valid for the new unit."] : errorLines(migration, columns)),
    ...unfounded.map((words) => wrap(`Not as planned: ${words}`, columns)),
  ];
}

/** Digits of a hash that a person compares by eye. */
const EYE_DIGITS = 16;

function setWords({ state }: ScreenMigration, setSha256: string): string {
  const hash = setSha256.slice(0, EYE_DIGITS);
  return state === "ready"
    ? `Configuration, sheets and proof belong together: each paper ends with 'set ${hash}'.`
    : "The papers are drafts and say so on every page.";
}

const ERRORS_SHOWN = 5;

function errorLines(migration: ScreenMigration, columns: number): readonly string[] {
  const { errors } = migration;
  const more = errors.length - ERRORS_SHOWN;
  return [
    wrap(`Check: ${errorWords(migration)}.`, columns),
    ...errors.slice(0, ERRORS_SHOWN).map(({ code, words }) => wrap(`  ${code}: ${words}`, columns)),
    ...(more > 0 ? [`  and ${more} more; 'boothkeep validate' on the new configuration tells all.`] : []),
  ];
}

function nextSentences(
  migration: ScreenMigration,
  { plan: planFile, decisions, out, sheets, recommended }: MigrateOptions,
): readonly string[] {
  const { state, plan, proof } = migration;
  switch (state) {
    case "decisions-missing": {
      const open = plan.questions.filter(({ answer }) => answer === undefined).length;
      const first = [
        `${open} of ${plan.questions.length} questions ${open === 1 ? "is" : "are"} open${decisions === undefined ? "" : ` after ${decisions}`}.`,
        ...(out === undefined ? [] : [`${out} was not written.`]),
      ].join(" ");
      const next =
        planFile === undefined
          ? `Next: run it again with --plan FILE; a decisions file to fill in is then written beside it${decisions === undefined ? "" : ", with the answers that you have given"}.`
          : `Next: ${recommended === true ? "check what is filled in as recommended, and answer the rest, in" : "fill in"} ${besidePlan(planFile)}, then run it again with --decisions ${besidePlan(planFile)} and without --plan (or with another name).`;
      return [first, next];
    }
    case "ruled-out":
      return ["Next: plan for another unit, or change the answer."];
    case "differs":
      if (proof.verdict !== "differs")
        return ["Next: look at what is named above before anything is loaded."];
      return [
        sheets === undefined
          ? "Next: run it again with --sheets FOLDER and read the proof before anything is loaded."
          : `Next: read ${sheets}/${paperPrefix(migration)}proof.txt before anything is loaded.`,
      ];
    case "ready": {
      const missing = [
        ...(out === undefined ? ["--out FILE writes the new configuration"] : []),
        ...(sheets === undefined ? ["--sheets FOLDER the papers for the booth"] : []),
      ];
      return ["Ready.", ...(missing.length === 0 ? [] : [`Next: ${missing.join(", ")}.`])];
    }
  }
}
