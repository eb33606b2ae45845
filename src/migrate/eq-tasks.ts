import type { Configuration } from "../model/index.ts";
import { type EqFit, type EqTask, eqTaskKey } from "./equalizers/eq-task.ts";
import { type PlanOptions, planMigration } from "./plan.ts";

/** Stands for a fit while tasks are only listed. */
const NOT_FITTED: EqFit = { filters: [], method: "refitted", rmsDb: 0, maxDb: 0, maxAtHz: 0 };

/**
 * The equalizer fits that a plan needs, each once, by their keys: so they can be computed elsewhere (in worker threads, once
 * for a thousand screens) and handed to planMigration by {@link rememberedFits}.
 *
 * @throws BoothkeepError as planMigration
 * @example
 * const tasks = eqTasks(configuration, { from, to, decisions });
 * const fits = new Map([...tasks].map(([key, task]) => [key, fitEqualizer(task)]));
 * planMigration(configuration, { from, to, decisions, eqFits: rememberedFits(fitEqualizer, fits) });
 */
export function eqTasks(
  configuration: Configuration,
  options: Omit<PlanOptions, "eqFits">,
): ReadonlyMap<string, EqTask> {
  const tasks = new Map<string, EqTask>();
  const recorder = {
    fit: (task: EqTask) => {
      tasks.set(eqTaskKey(task), task);
      return NOT_FITTED;
    },
  };
  planMigration(configuration, { ...options, eqFits: recorder });
  return tasks;
}
