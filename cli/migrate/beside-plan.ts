import { basename, dirname, join } from "node:path";

/** "plan.json" has "plan.decisions.json" beside it. */
export function besidePlan(planFile: string): string {
  return join(dirname(planFile), `${basename(planFile).replace(/\.json$/i, "")}.decisions.json`);
}
