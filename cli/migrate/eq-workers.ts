import type { EqFit, EqTask } from "../../src/migrate/index.ts";
import { spread } from "./pool.ts";

/** Fewer tasks than this are done sooner than another worker is started. */
const WORTH_WORKERS = 4;

/**
 * Computes EQ fits, spread over the processor's cores; equal input gives equal fits however they are spread.
 *
 * @param onFit called with each fit as it comes
 */
export function fitAll(
  tasks: ReadonlyMap<string, EqTask>,
  onFit: (key: string, fit: EqFit) => void,
): Promise<void> {
  const keys = new Map([...tasks].map(([key, task]) => [task, key]));
  return spread<EqTask, EqFit>([...tasks.values()], {
    worker: "eq-worker",
    worthWorkers: WORTH_WORKERS,
    here: async () => (await import("../../src/migrate/index.ts")).fitEqualizer,
    onResult: (fit, task) => onFit(keys.get(task)!, fit),
  });
}
