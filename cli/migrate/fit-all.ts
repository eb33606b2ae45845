import type { EqFit, EqTask } from "../../src/public/migrate.ts";
import { spread } from "../workers/pool.ts";

/** Fewer tasks than this are done sooner than another worker is started. */
const WORTH_A_WORKER = 4;

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
  return spread<"fit">({
    task: "fit",
    setup: undefined,
    inputs: [...tasks.values()],
    worthWorkers: Math.ceil(tasks.size / WORTH_A_WORKER),
    asDone: true,
    onResult: (fit, task) => onFit(keys.get(task)!, fit),
  });
}
