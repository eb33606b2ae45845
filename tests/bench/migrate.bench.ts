import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { FLEET_PROFILE, makeFleet } from "../../samples/generate/fleet.ts";
import { migrateScreen } from "../../src/jobs/index.ts";
import { type EqFits, planMigration, surveyMigration } from "../../src/migrate/plan/index.ts";
import type { Configuration, Decisions, UnitProfile } from "../../src/model/index.ts";
import { COMMAND, type MeasuredCommand, measuredCommand } from "./measured-command.ts";

/*
 * One large screen onto each unit, in this process and through the built command; then fleets through the built command:
 * unit, screens, and how many different sets of equalizers they have. The unit of the fleet has fewer bands on other
 * steps, so nearly every equalizer is fitted. MIGRATE_FLEETS=skarn-36:100:2 names others, MIGRATE_EFFORTS=quick leaves
 * the thorough fits out.
 */

const FLEETS = process.env.MIGRATE_FLEETS ?? "whimbrel-32:1000:20";
const EFFORTS = (process.env.MIGRATE_EFFORTS ?? "quick,thorough").split(",") as ("quick" | "thorough")[];
const PROFILES = ["skarn-30", "skarn-36", "whimbrel-32", "dunlin-16"] as const;
const RUNS = 12;

const samples = join(import.meta.dirname, "..", "..", "samples");
const sample = <T>(...path: readonly string[]) =>
  JSON.parse(readFileSync(join(samples, ...path), "utf8")) as T;
const profile = (id: string) => sample<UnitProfile>("profiles", `${id}.json`);

const large = sample<Configuration>("screens", "lantern-mill", "screen-1.json");
const from = profile(large.unit.profileId);

const NOT_FITTED: EqFits = {
  fit: () => ({ filters: [], method: "refitted", rmsDb: 0, maxDb: 0, maxAtHz: 0 }),
};

export async function run(): Promise<unknown> {
  if (!existsSync(COMMAND)) throw new Error("Build first: npm run build");
  const folder = mkdtempSync(join(tmpdir(), "boothkeep-migrate-"));
  try {
    return {
      planProofAndCheckWithoutRefits: PROFILES.map(withoutRefits),
      oneScreenByTheCommand: oneScreen(folder),
      fleets: FLEETS.split(",").map((text) => {
        const [id, screens, classes] = text.split(":");
        return fleet(join(folder, `fleet-${id}`), {
          id: id!,
          screens: Number(screens),
          classes: Number(classes),
        });
      }),
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The large sample onto one unit, without fitting equalizers: plan, proof and check. */
function withoutRefits(id: string) {
  const to = profile(id);
  const both = () => migrateScreen(large, { from, to, eqFits: NOT_FITTED });
  const firstMs = milliseconds(both);
  const times = Array.from({ length: RUNS }, () => milliseconds(both)).sort((a, b) => a - b);
  const plans = Array.from({ length: RUNS }, () =>
    milliseconds(() => planMigration(large, { from, to, eqFits: NOT_FITTED })),
  ).sort((a, b) => a - b);
  const { plan } = both();
  return {
    onto: id,
    values: plan.values,
    questions: plan.questions.length,
    cablesMoved: plan.cables.filter(({ moved }) => moved).length,
    firstCpuMs: round(firstMs),
    medianCpuMs: round(times[RUNS / 2]!),
    slowestCpuMs: round(times.at(-1)!),
    ofThatPlanCpuMs: round(plans[RUNS / 2]!),
  };
}

/** The large sample through the command, equalizers over worker threads, with both efforts. */
function oneScreen(folder: string) {
  mkdirSync(join(folder, "one", "profiles"), { recursive: true });
  const cwd = join(folder, "one");
  for (const id of PROFILES)
    copyFileSync(join(samples, "profiles", `${id}.json`), join(cwd, "profiles", `${id}.json`));
  writeFileSync(join(cwd, "screen.json"), JSON.stringify(large));
  return PROFILES.flatMap((id) =>
    EFFORTS.map((effort) => {
      const decisions: Decisions = {
        kind: "boothkeep.decisions",
        schemaVersion: "1.0.0",
        fromProfileId: from.id,
        toProfileId: id,
        effort,
        answers: [],
      };
      writeFileSync(join(cwd, `${id}-${effort}.json`), JSON.stringify(decisions));
      const { tasks } = surveyMigration(large, { from, to: profile(id), decisions });
      const args = ["migrate", "screen.json", "--to", id, "--decisions", `${id}-${effort}.json`, "--json"];
      const { seconds, cpuSeconds, maxMiB } = measuredCommand(cwd, args);
      return { onto: id, effort, equalizers: tasks.size, seconds, cpuSeconds, maxMiB };
    }),
  );
}

interface Fleet {
  /** The new unit. */
  readonly id: string;
  readonly screens: number;
  readonly classes: number;
}

/** Many screens of a few classes through the command: asked, answered once for all, planned, and run again. */
function fleet(cwd: string, { id, screens, classes }: Fleet) {
  mkdirSync(join(cwd, "profiles"), { recursive: true });
  mkdirSync(join(cwd, "screens"));
  writeFileSync(join(cwd, "profiles", `${FLEET_PROFILE.id}.json`), JSON.stringify(FLEET_PROFILE));
  copyFileSync(join(samples, "profiles", `${id}.json`), join(cwd, "profiles", `${id}.json`));
  const files = writeScreens(cwd, screens, classes);
  const migrate = (...rest: readonly string[]) =>
    measuredCommand(cwd, ["migrate", ...files, "--to", id, "--into", "planned", ...rest]);
  const asking = migrate("--recommended");
  let decisions = answered(cwd, "planned/all.open.decisions.json", "answers-1.decisions.json");
  let planning = migrate("--decisions", decisions);
  // Answers may bring up further questions.
  for (let round = 2; planning.code === 4; round += 1) {
    const open = `planned/answers-${round - 1}.open.decisions.json`;
    decisions = answered(cwd, open, `answers-${round}.decisions.json`);
    planning = migrate("--decisions", decisions);
  }
  const again = migrate("--decisions", decisions);
  const fits = readFileSync(join(cwd, "planned", "work", "equalizers.jsonl"), "utf8").split("\n").length - 1;
  return {
    onto: id,
    screens,
    classes,
    effort: "quick",
    equalizersFitted: fits,
    ...named({ asking, planning, again }),
  };
}

function named(runs: Readonly<Record<string, MeasuredCommand>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(runs).map(([name, { code: _, ...measured }]) => [name, measured]));
}

/** Every screen with values of its own, but with the equalizers of its class. */
function writeScreens(cwd: string, screens: number, classes: number): readonly string[] {
  const models: Configuration[] = [];
  const files: string[] = [];
  for (const { configuration } of makeFleet({ screens, visits: 1, seed: 11 })) {
    if (models.length < classes) models.push(configuration);
    const model = models[files.length % classes]!;
    const filters = new Map(model.outputs.map((output) => [output.id, output.filters]));
    const screen: Configuration = {
      ...configuration,
      equalizations: model.equalizations,
      outputs: configuration.outputs.map((output) => ({ ...output, filters: filters.get(output.id)! })),
    };
    const file = `screens/${screen.screen.siteId}.${screen.screen.screenId}.json`;
    writeFileSync(join(cwd, file), JSON.stringify(screen));
    files.push(file);
  }
  return files;
}

/** Fills in what is still open: the first option that neither weakens protection nor rules the unit out nor wants a text. */
function answered(cwd: string, open: string, into: string): string {
  const decisions = JSON.parse(readFileSync(join(cwd, open), "utf8")) as Decisions;
  const answers = decisions.answers.map((answer) => {
    if (answer.optionId !== null) return answer;
    const free = (answer.choices ?? []).find((choice) => !/needs "|^not-this-unit/.test(choice));
    return { ...answer, optionId: free?.split(":")[0] ?? null };
  });
  writeFileSync(join(cwd, into), JSON.stringify({ ...decisions, effort: "quick", answers }));
  return into;
}

/** Of the processor: what a machine that does something else besides does not change. */
function milliseconds(task: () => unknown): number {
  const start = process.cpuUsage();
  task();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

function round(value: number): number {
  return Number(value.toPrecision(4));
}
