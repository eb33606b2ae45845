import type { AuditedScreen, CensusCounts, DriftPart } from "../../src/public/fleet.ts";
import type { EqFit, EqTask, SettledScreen, Settlement, Survey } from "../../src/public/migrate.ts";
import type { AuditChunk, AuditSetup, CensusSetup, Chunk, DriftSetup } from "../fleet/tasks.ts";
import type { FilesGround } from "../migrate/many-sources.ts";

/** What a task says while it works. */
export type TaskNote =
  /** One more thing is done, by its name. */
  | { readonly kind: "done"; readonly name: string }
  /** Something that the user should know; the same text is told once. */
  | { readonly kind: "warning"; readonly words: string }
  /** The same of something damaged or missing: the command ends with 3. */
  | { readonly kind: "damaged"; readonly words: string };

/**
 * Work that can be done on any thread. Set up once a thread; then called with one input after the other. Setup, inputs,
 * results and notes are plain data.
 */
export type Task<Setup, Input, Result> = (
  setup: Setup,
  note: (note: TaskNote) => void,
) => Promise<(input: Input) => Promise<Result>>;

/** All tasks; each loads what it needs when it is set up. */
export const TASKS = {
  audit: async (setup, note) => (await import("../fleet/tasks.ts")).auditTask(setup, note),
  drift: async (setup, note) => (await import("../fleet/tasks.ts")).driftTask(setup, note),
  census: async (setup, note) => (await import("../fleet/tasks.ts")).censusTask(setup, note),
  fit: async () => {
    const { fitEqualizer } = await import("../../src/public/migrate.ts");
    return async (task) => fitEqualizer(task);
  },
  survey: async (setup) => (await import("../migrate/many-sources.ts")).manyWork(setup).survey,
  settle: async (setup) => (await import("../migrate/many-sources.ts")).manyWork(setup).settle,
} as const satisfies {
  readonly audit: Task<AuditSetup, AuditChunk, readonly AuditedScreen[]>;
  readonly drift: Task<DriftSetup, Chunk, DriftPart>;
  readonly census: Task<CensusSetup, Chunk, CensusCounts>;
  readonly fit: Task<undefined, EqTask, EqFit>;
  readonly survey: Task<FilesGround, string, Survey>;
  readonly settle: Task<FilesGround, Settlement, SettledScreen>;
};
