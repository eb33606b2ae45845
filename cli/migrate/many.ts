import { existsSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { BoothkeepError, EXIT_CODE } from "../../src/errors/index.ts";
import type { ScreenMigration } from "../../src/jobs/index.ts";
import type { EqFits, EqTask } from "../../src/migrate/index.ts";
import type {
  Configuration,
  DecisionClasses,
  Decisions,
  PlanDocument,
  UnitProfile,
} from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { profileFrom } from "../profiles.ts";
import { progress } from "../progress.ts";
import { fitAll } from "./eq-workers.ts";
import { jsonText, type MigrateOptions, oldProfile } from "./screen.ts";

type ManyOptions = MigrateOptions & { readonly into: string };

/** One screen of many. */
interface OneOfMany {
  readonly file: string;
  /** "lantern-mill.screen-1" */
  readonly name: string;
  readonly old: Configuration;
  readonly from: UnitProfile;
  readonly to: UnitProfile;
  readonly decisions: Decisions | undefined;
}

/** What became of one screen. */
export interface ScreenResult {
  readonly file: string;
  readonly name: string;
  readonly state: "planned" | "there-already" | "decisions-missing" | "differs" | "failed";
  readonly words: string;
}

/**
 * Migrates many screens to one model: plans and new configurations go into one folder, equal equalizers are fitted once,
 * and what is in the folder already is left alone. A screen that fails does not stop the others.
 */
export async function migrateMany(
  files: readonly string[],
  options: ManyOptions,
  context: Context,
): Promise<void> {
  if (options.out !== undefined || options.plan !== undefined || options.sheets !== undefined) {
    throw new BoothkeepError("usage.wrong", "--into takes the place of --out, --plan and --sheets.", {
      next: "Leave them out; papers of one screen come from a run with that screen alone.",
    });
  }
  const results: ScreenResult[] = [];
  const open = await openScreens(files, options, { context, results });
  const eqFits = await fitsOf(open, context, results);
  const bar = progress(context, "Planning", open.length);
  for (const [index, screen] of open.entries()) {
    if (!results.some(({ file }) => file === screen.file)) {
      results.push(await migrateInto(screen, eqFits, options.into, context));
    }
    bar.at(index + 1, screen.name);
  }
  bar.end();
  if (options.json === true) context.out(JSON.stringify({ screens: results }));
  else context.out(await tableOf(results, context));
  for (const { state } of results) context.exit(EXIT_OF[state]);
}

const EXIT_OF: Readonly<Record<ScreenResult["state"], number>> = {
  planned: EXIT_CODE.done,
  "there-already": EXIT_CODE.done,
  differs: EXIT_CODE.found,
  failed: EXIT_CODE.usage,
  "decisions-missing": EXIT_CODE.decision,
};

interface Session {
  readonly context: Context;
  readonly results: ScreenResult[];
}

/** Reads every screen that is not planned yet. */
async function openScreens(
  files: readonly string[],
  options: ManyOptions,
  { context, results }: Session,
): Promise<readonly OneOfMany[]> {
  const search = { folder: options.profiles, near: files[0] };
  const to = await profileFrom(options.to, search, context);
  const decisionsOf = await decisionsBook(options, context);
  const { canonicalHash } = await import("../../src/canonical/index.ts");
  const profiles = new Map<string, UnitProfile>();
  const open: OneOfMany[] = [];
  const bar = progress(context, "Reading", files.length);
  for (const [index, file] of files.entries()) {
    await attempt(file, results, async () => {
      const old = await readConfigurationFile(file, context);
      const name = `${old.screen.siteId}.${old.screen.screenId}`;
      requireNew(name, file, [...open, ...results]);
      const plan = await planThere(join(options.into, `${name}.plan.json`), context);
      if (plan?.configurationSha256 === canonicalHash(old) && plan.decided) {
        results.push({ file, name, state: "there-already", words: "planned in an earlier run" });
        return;
      }
      const id = old.unit.profileId;
      const from = profiles.get(id) ?? (await oldProfile(id, options, { file, to, context }));
      profiles.set(id, from);
      open.push({ file, name, old, from, to, decisions: await decisionsOf(old) });
    });
    bar.at(index + 1);
  }
  bar.end();
  return open;
}

function requireNew(name: string, file: string, others: readonly { readonly name: string }[]): void {
  if (!others.some((other) => other.name === name)) return;
  throw new BoothkeepError("usage.wrong", `Two files are of the same screen, '${name}'.`, {
    place: { file },
    next: "Name one configuration for each screen.",
  });
}

async function planThere(file: string, context: Context): Promise<PlanDocument | undefined> {
  if (!existsSync(resolve(context.cwd, file))) return undefined;
  return readDocumentFile<PlanDocument>(file, "boothkeep.plan", context);
}

/** Finds the decisions of a screen: one file for all, or by the class of the screen. */
async function decisionsBook(
  { decisions, classes }: ManyOptions,
  context: Context,
): Promise<(screen: Configuration) => Promise<Decisions | undefined>> {
  const known = new Map<string, Decisions>();
  const read = async (file: string) => {
    const there =
      known.get(file) ?? (await readDocumentFile<Decisions>(file, "boothkeep.decisions", context));
    known.set(file, there);
    return there;
  };
  if (classes === undefined) return async () => (decisions === undefined ? undefined : read(decisions));
  const { screenClass } = await import("../../src/migrate/index.ts");
  const book = await readDocumentFile<DecisionClasses>(classes, "boothkeep.decision-classes", context);
  return async (screen) => {
    const found = screenClass(screen, book.classes);
    if (found !== undefined) return read(join(dirname(classes), found.decisions));
    return decisions === undefined ? undefined : read(decisions);
  };
}

/** Fits every equalizer of all screens once. */
async function fitsOf(
  screens: readonly OneOfMany[],
  context: Context,
  results: ScreenResult[],
): Promise<EqFits> {
  const { eqTasks, fitEqualizer, rememberedFits } = await import("../../src/migrate/index.ts");
  const tasks = new Map<string, EqTask>();
  const listing = progress(context, "Listing equalizers", screens.length);
  for (const [index, screen] of screens.entries()) {
    await attempt(screen.file, results, async () => {
      for (const [key, task] of eqTasks(screen.old, screen)) tasks.set(key, task);
    });
    listing.at(index + 1);
  }
  listing.end();
  const bar = progress(context, "Fitting equalizers", tasks.size);
  const fits = await fitAll(tasks, bar);
  bar.end();
  return rememberedFits(fitEqualizer, fits);
}

async function migrateInto(
  screen: OneOfMany,
  eqFits: EqFits,
  into: string,
  context: Context,
): Promise<ScreenResult> {
  const { file, name } = screen;
  const { migrateScreen } = await import("../../src/jobs/index.ts");
  const failed: ScreenResult[] = [];
  let result: ScreenResult | undefined;
  await attempt(file, failed, async () => {
    const migration = migrateScreen(screen.old, { ...screen, eqFits });
    const { plan } = migration;
    if (plan.decided) {
      writeNew(join(into, `${name}.json`), jsonText(plan.configuration), context.cwd);
      // The plan comes last: where it lies, the screen is done.
      writeNew(join(into, `${name}.plan.json`), jsonText(plan), context.cwd);
    } else {
      await writeToFillIn(join(into, `${name}.decisions.json`), migration, screen, context);
    }
    result = { file, name, ...verdictOf(migration) };
  });
  return result ?? failed[0]!;
}

/** A decisions file to fill in, unless one of an earlier run is there: somebody may be at work on it. */
async function writeToFillIn(
  file: string,
  { plan }: ScreenMigration,
  { decisions }: OneOfMany,
  context: Context,
): Promise<void> {
  if (existsSync(resolve(context.cwd, file))) return;
  const { decisionsToFillIn } = await import("../../src/migrate/index.ts");
  writeNew(file, jsonText(decisionsToFillIn(plan, decisions)), context.cwd);
}

function verdictOf({ state, plan, proof, errors }: ScreenMigration): Pick<ScreenResult, "state" | "words"> {
  if (state === "decisions-missing") {
    const open = plan.questions.filter(({ answer }) => answer === undefined);
    const ids = open.slice(0, 3).map(({ id }) => id);
    const more = open.length > ids.length ? ` and ${open.length - ids.length} more` : "";
    return { state, words: `open: ${ids.join(", ")}${more}` };
  }
  if (errors.length > 0) return { state: "differs", words: `${errors.length} errors for the new unit` };
  if (state === "differs") return { state, words: "the proof finds differences" };
  return { state: "planned", words: proof.verdict === "equal" ? "equal" : "within tolerance" };
}

/** Does something for one screen; an error that we know becomes its result, so that the others go on. */
async function attempt(file: string, results: ScreenResult[], work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    results.push({ file, name: file, state: "failed", words: `${error.message} ${error.next}` });
  }
}

const STATE_WORDS: Readonly<Record<ScreenResult["state"], string>> = {
  planned: "planned and proven",
  "there-already": "there already",
  "decisions-missing": "decisions missing",
  differs: "differs",
  failed: "failed",
};

async function tableOf(results: readonly ScreenResult[], { columns, color }: Context): Promise<string> {
  const { cautionBlock, renderText } = await import("../../src/report/index.ts");
  const states = Object.keys(STATE_WORDS) as ScreenResult["state"][];
  const counts = states.flatMap((state) => {
    const count = results.filter((result) => result.state === state).length;
    return count === 0 ? [] : [[STATE_WORDS[state], String(count)] as const];
  });
  const told = results.filter(({ state }) => state !== "planned" && state !== "there-already");
  return renderText(
    {
      title: `Migration of ${results.length} screens`,
      blocks: [
        cautionBlock(),
        { kind: "facts", pairs: counts },
        {
          kind: "list",
          marker: "dot",
          items: told.map(({ name, state, words }) => ({
            lead: name,
            text: `${STATE_WORDS[state]}: ${words}`,
          })),
        },
      ],
    },
    { columns, color },
  );
}
