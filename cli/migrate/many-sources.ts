import { dirname, join } from "node:path";
import { type Decisions, proofReport, renderText, type UnitProfile } from "../../src/public/boothkeep.ts";
import {
  type ManyGround,
  type ManySources,
  migrationPapers,
  type SettledScreen,
  type Settlement,
  type Survey,
  screenClass,
  settleScreen,
  surveyScreen,
} from "../../src/public/migrate.ts";
import { jsonText } from "../../src/public/report.ts";
import { type Context, processContext } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { readInput, writeOnce } from "../files.ts";
import { jsonFile, oldProfile, paperFiles } from "./screen.ts";

/** What all screens of a run have in common, and which files belong to it; goes to worker threads as it is. */
export interface FilesGround extends ManyGround {
  readonly cwd: string;
  readonly into: string;
  readonly sheets: string | undefined;
  readonly from: string | undefined;
  readonly profiles: string | undefined;
  readonly decisions: string | undefined;
  readonly classes: string | undefined;
}

/** The two things that are done for one screen of many; used in worker threads and here. */
export function manyWork(ground: FilesGround): {
  readonly survey: (file: string) => Promise<Survey>;
  readonly settle: (settlement: Settlement) => Promise<SettledScreen>;
} {
  const sources = fileSources(ground);
  return {
    survey: (file) => surveyScreen(file, ground, sources),
    settle: (settlement) => settleScreen(settlement, ground, sources),
  };
}

function fileSources(ground: FilesGround): ManySources {
  const { cwd, to, into, sheets } = ground;
  const context: Context = { ...processContext(), cwd, err: () => {} };
  const profiles = new Map<string, Promise<UnitProfile>>();
  return {
    read: (file) => readInput(file, cwd),
    profileOf: (id, file) => {
      const found = profiles.get(id) ?? oldProfile(id, ground, { file, to, context });
      profiles.set(id, found);
      return found;
    },
    answersFor: answersBook(ground, context),
    keep: async ({ name }, screen, migration) => {
      const { plan, proof } = migration;
      const write = (file: string, text: string) => writeOnce(file, text, cwd);
      if (sheets !== undefined) {
        const papers = paperFiles(await migrationPapers(screen, migration), join(sheets, name));
        for (const { file, content } of papers) write(file, content);
      }
      write(join(into, `${name}.json`), jsonFile(plan.configuration));
      write(join(into, `${name}.plan.json`), `${jsonText(plan)}\n`);
      if (proof.verdict === "differs") write(join(into, `${name}.proof.txt`), renderText(proofReport(proof)));
    },
  };
}

/** Finds the decisions of a screen: by its class, else those for all. */
function answersBook({ decisions, classes }: FilesGround, context: Context): ManySources["answersFor"] {
  const known = new Map<string, Promise<Decisions>>();
  const read = (file: string) => {
    const found = known.get(file) ?? readDocumentFile(file, "boothkeep.decisions", context);
    known.set(file, found);
    return found;
  };
  const book =
    classes === undefined ? undefined : readDocumentFile(classes, "boothkeep.decision-classes", context);
  // Whoever asks gets the error; nobody asking is no reason to end the process.
  book?.catch(() => {});
  return async (screen) => {
    const found = screenClass(screen, (await book)?.classes ?? []);
    const file = found === undefined ? decisions : join(dirname(classes!), found.decisions);
    const answers = { name: found?.name, file };
    return { answers, decisions: file === undefined ? undefined : await read(file) };
  };
}
