import type { EqFitReport, Output, Question } from "../../../model/index.ts";
import { carryEqualizer } from "../equalizers/carry-equalizer.ts";
import { replaceById, type Step, type StepItem } from "../step.ts";
import { place } from "../words.ts";

/** Driver EQ: the filters of each output. */
export const driverFilters: Step = {
  name: "driver-filters",
  run: (context) => {
    const { next, to, decisions, words } = context;
    const items: StepItem[] = [];
    const questions: Question[] = [];
    const equalizers: EqFitReport[] = [];
    const changed = new Map<string, Output>();
    for (const output of next.outputs) {
      if (output.filters.length === 0) continue;
      const done = carryEqualizer(context, {
        at: place(`outputs/${output.id}`, `${words.output(output)}, driver EQ`),
        equalizer: { parametric: output.filters },
        names: { parametric: "filters" },
        graphicAbility: undefined,
        filterAbility: to.outputs.filters,
        effort: decisions?.effort ?? "thorough",
      });
      changed.set(output.id, { ...output, filters: done.equalizer.parametric });
      items.push(...done.items);
      questions.push(...done.questions);
      if (done.report !== undefined) equalizers.push(done.report);
    }
    return {
      next: { ...next, outputs: replaceById(next.outputs, changed) },
      items,
      questions,
      equalizers,
    };
  },
};
