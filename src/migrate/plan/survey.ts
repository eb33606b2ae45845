import type { Configuration, Question } from "../../model/index.ts";
import { type EqFit, type EqTask, eqTaskKey } from "./equalizers/eq-task.ts";
import { rulingOut } from "./not-this-unit.ts";
import { type PlanOptions, planMigration } from "./plan.ts";

/** Stands for a fit while tasks are only listed. */
const NOT_FITTED: EqFit = { filters: [], method: "refitted", rmsDb: 0, maxDb: 0, maxAtHz: 0 };

/** What a plan will ask and compute, without the computing. */
export interface MigrationSurvey {
  readonly questions: readonly Question[];
  /** Questions whose answers rule the unit out. */
  readonly ruledOutBy: readonly Question[];
  /** The equalizer fits that the plan needs, each once, by their keys. */
  readonly tasks: ReadonlyMap<string, EqTask>;
}

/**
 * Looks what a plan asks and which equalizers it has to fit: so the fits can be computed elsewhere (in worker threads, once
 * for a thousand screens), or not at all while decisions are missing, and handed to planMigration by
 * {@link rememberedFits}.
 *
 * @throws BoothkeepError as planMigration
 * @example
 * const { tasks } = surveyMigration(configuration, { from, to, decisions });
 * const fits = new Map([...tasks].map(([key, task]) => [key, fitEqualizer(task)]));
 * planMigration(configuration, { from, to, decisions, eqFits: rememberedFits(fitEqualizer, fits) });
 */
export function surveyMigration(
  configuration: Configuration,
  options: Omit<PlanOptions, "eqFits">,
): MigrationSurvey {
  const tasks = new Map<string, EqTask>();
  const recorder = {
    fit: (task: EqTask) => {
      tasks.set(eqTaskKey(task), task);
      return NOT_FITTED;
    },
  };
  const { questions } = planMigration(configuration, { ...options, eqFits: recorder });
  return { questions, ruledOutBy: rulingOut(questions), tasks };
}
