import { dirname, join, resolve } from "node:path";
import { BoothkeepError, EXIT_CODE, renderText } from "../../src/public/boothkeep.ts";
import {
  type ManyState,
  type MigrationCrew,
  type MigrationStage,
  migrateScreens,
  openDecisions,
} from "../../src/public/migrate.ts";
import { jsonText, manyScreensReport } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { profileFrom } from "../profiles.ts";
import { progress } from "../progress.ts";
import { ownVersion } from "../version.ts";
import { spread } from "../workers/pool.ts";
import { fitAll } from "./fit-all.ts";
import { openFleetFolder } from "./fleet-folder.ts";
import type { FilesGround } from "./many-sources.ts";
import { writeOpenDecisions } from "./open-decisions.ts";
import type { MigrateOptions } from "./screen.ts";

/** Fewer screens than this are done sooner than another worker is started. */
const WORTH_A_WORKER = 10;

type ManyOptions = MigrateOptions & { readonly into: string };

/**
 * Migrates many screens to one model: plans and new configurations go into one folder, and so does what is needed to take the
 * run up again.
 *
 * @throws BoothkeepError usage.wrong; what reading the profile and the decisions throws; output.no-space and the like
 */
export async function migrateMany(
  files: readonly string[],
  options: ManyOptions,
  context: Context,
): Promise<void> {
  if (options.out !== undefined || options.plan !== undefined) {
    throw new BoothkeepError("usage.wrong", "--into takes the place of --out and --plan.", {
      next: "Leave them out.",
    });
  }
  const version = ownVersion();
  const records = openFleetFolder(resolve(context.cwd, options.into), version);
  const ground: FilesGround = {
    cwd: context.cwd,
    version,
    to: await profileFrom(options.to, { folder: options.profiles, near: files[0] }, context),
    into: options.into,
    sheets: options.sheets,
    from: options.from,
    profiles: options.profiles,
    decisions: options.decisions,
    classes: options.classes,
    records: records.records,
  };
  await checkDecisions(options, context);
  const { surveys, results } = await migrateScreens(files, {
    crew: crewOf(ground),
    records,
    onStage: (stage, total) => progress(context, STAGE_WORDS[stage], total),
  });
  const open = await openDecisions(surveys, {
    toProfileId: ground.to.id,
    asRecommended: options.recommended === true,
    read: (file) => readDocumentFile(file, "boothkeep.decisions", context),
  });
  const written = writeOpenDecisions(open, options.into, context);
  if (options.json === true) context.out(jsonText({ screens: results, written }));
  else {
    const { columns, color } = context;
    const report = manyScreensReport({ results, written, into: options.into });
    context.out(renderText(report, { columns, color }));
  }
  for (const { state } of results) context.exit(EXIT_OF[state]);
}

const STAGE_WORDS: Readonly<Record<MigrationStage, string>> = {
  survey: "Reading",
  fit: "Fitting equalizers",
  settle: "Planning and proving",
};

const EXIT_OF: Readonly<Record<ManyState, number>> = {
  planned: EXIT_CODE.done,
  differs: EXIT_CODE.found,
  "ruled-out": EXIT_CODE.found,
  failed: EXIT_CODE.usage,
  outdated: EXIT_CODE.usage,
  "decisions-missing": EXIT_CODE.decision,
};

/** Reads every decisions file once before anything else: a fault in one would come back from every screen. */
async function checkDecisions({ decisions, classes }: ManyOptions, context: Context): Promise<void> {
  const read = (file: string) => readDocumentFile(file, "boothkeep.decisions", context);
  if (decisions !== undefined) await read(decisions);
  if (classes === undefined) return;
  const book = await readDocumentFile(classes, "boothkeep.decision-classes", context);
  for (const item of book.classes) {
    const odd = item.screens.find((screen) => !screen.includes("/"));
    if (odd !== undefined) throw noSlash(classes, item.name, odd);
    await read(join(dirname(classes), item.decisions));
  }
}

function noSlash(file: string, name: string, screen: string): BoothkeepError {
  return new BoothkeepError("usage.wrong", `The class '${name}' names '${screen}', which can be no screen.`, {
    place: { file },
    next: "Name screens by site and screen with a slash between: 'site/screen', or 'site/*' for all of a site.",
  });
}

/** Work on screens is spread over the processor's cores, and so are the fits. */
function crewOf(ground: FilesGround): MigrationCrew {
  return {
    survey: (files, onResult) =>
      spread<"survey">({
        task: "survey",
        setup: ground,
        inputs: files,
        worthWorkers: Math.ceil(files.length / WORTH_A_WORKER),
        onResult,
      }),
    fit: fitAll,
    settle: (settlements, onResult) =>
      spread<"settle">({
        task: "settle",
        setup: ground,
        inputs: settlements,
        worthWorkers: Math.ceil(settlements.length / WORTH_A_WORKER),
        asDone: true,
        onResult,
      }),
  };
}
