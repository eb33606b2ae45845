import type { EqFit, EqTask } from "./eq-task.ts";

// stand-in until src/refit is there
export function fitEqualizer(task: EqTask): EqFit {
  const f = task.target.filters;
  return {
    filters: task.source.filters.slice(0, f?.bands ?? 0),
    ...(task.target.graphic === undefined || task.source.graphic?.layout !== task.target.graphic.layout
      ? {}
      : { graphic: task.source.graphic }),
    method: task.source.graphic && !task.target.graphic ? "refitted" : "copied",
    rmsDb: 9,
    maxDb: 9,
    maxAtHz: 1000,
  };
}
