import type { Command } from "commander";
import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { openLogbookOrPack } from "../logbook-or-pack.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { wrap } from "../wrap.ts";
import { filterOf } from "./history.ts";
import { progressOf } from "./verify.ts";

interface MergeCommandOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly json?: boolean;
}

const HELP = `
Brings over what the other logbook has besides; the other one is only read.
The order in which logbooks are merged does not matter, and nothing can
conflict: where a screen was recorded in both apart, both entries are kept.
Damaged records and the other one's signature policy are not brought over.
May be interrupted and run again.

Exit codes: 0 done, 1 done, but something in the other logbook cannot be
trusted and stayed there, 2 wrong use or not written, 3 done, but records are
missing or damaged there; or a pack whose signature does not match it, of which
nothing is brought over.

  boothkeep merge office-logbook /media/stick/logbook
  boothkeep merge office-logbook /media/stick/logbook --site lantern-mill`;

export function addMerge(program: Command, context: Context): void {
  program
    .command("merge")
    .summary("bring another logbook's entries into this one")
    .description("Brings the entries of another logbook into this one.")
    .argument("<logbook>", "folder of the logbook to bring into")
    .argument("<other>", "folder of the logbook to bring from, or a handover pack")
    .option(...SITE_OPTION)
    .option(...SCREEN_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, other: string, options: MergeCommandOptions) =>
      mergeFolders(logbook, other, options, context),
    );
}

async function mergeFolders(
  folder: string,
  other: string,
  options: MergeCommandOptions,
  context: Context,
): Promise<void> {
  const { entryWords, mergeLogbook, readPolicy } = await import("../../src/public/logbook.ts");
  const into = await openLogbookFolder(folder, context);
  const from = await openLogbookOrPack(other, context, readPolicy(into));
  const shown = progressOf("Merged", context);
  const report = mergeLogbook(into, from, { only: filterOf(options), onProgress: shown.step });
  shown.end();
  if (options.json === true) {
    context.out(jsonText(report));
  } else {
    const { entriesAdded, withdrawalsAdded, signaturesAdded, findings } = report;
    const words = `Brought over: entries ${entriesAdded}, withdrawals ${withdrawalsAdded}, signatures ${signaturesAdded}.`;
    context.out(wrap(words, context.columns));
    for (const finding of findings) context.err(wrap(`In '${other}': ${finding.words}`, context.columns));
    for (const { siteId, screenId, latest } of report.forks) {
      const words = `${siteId} / ${screenId} was recorded in two places apart: ${latest.map(entryWords).join("; ")}. Compare them and record the one that is right: the new entry follows both.`;
      context.out(wrap(words, context.columns));
    }
  }
  sayNotes({ notes: report.notes }, context);
  if (report.findings.some((finding) => finding.severity === "error")) context.exit(EXIT_CODE.found);
}
