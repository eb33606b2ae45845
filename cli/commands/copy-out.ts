import { resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { localDateTime, SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { wrap } from "../wrap.ts";
import { filterOf } from "./history.ts";
import { progressOf } from "./verify.ts";

interface CopyOutOptions {
  readonly site: string;
  readonly screen?: string;
  readonly json?: boolean;
}

const HELP = `
Makes a logbook of its own that holds one site or one screen with all that its
entries rest on, gathered in one file: to send it, or to take it along.
'boothkeep merge' brings it, and what is recorded in it, back.

Exit codes: 0 done, 2 wrong use or not written, 3 done, but something is
missing or could not be trusted and was left behind.

  boothkeep copy-out logbook for-the-visit --site lantern-mill`;

export function addCopyOut(program: Command, context: Context): void {
  program
    .command("copy-out")
    .summary("copy a site or a screen into a logbook of its own")
    .description("Copies a site or a screen into a new logbook.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<new>", "folder of the new logbook")
    .requiredOption(...SITE_OPTION)
    .option(...SCREEN_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, target: string, options: CopyOutOptions) =>
      copyOut(logbook, target, options, context),
    );
}

async function copyOut(
  folder: string,
  target: string,
  options: CopyOutOptions,
  context: Context,
): Promise<void> {
  const { bindLogbook, mergeLogbook } = await import("../../src/public/logbook.ts");
  const { createLogbook, folderStore, history } = await import("../../src/public/boothkeep.ts");
  const from = await openLogbookFolder(folder, context);
  const only = filterOf(options);
  if (history(from, only).items.length === 0) {
    throw new BoothkeepError("logbook.no-entry", "The logbook has no entry of this site or screen.", {
      next: "List what is there: 'boothkeep history'.",
    });
  }
  const into = createLogbook(folderStore(resolve(context.cwd, target)), {
    id: crypto.randomUUID(),
    startedAt: localDateTime(context.now()),
  });
  const shown = progressOf("Copied", context);
  const report = mergeLogbook(into, from, { only, onProgress: shown.step });
  bindLogbook(into);
  shown.end();
  context.out(
    options.json === true
      ? jsonText(report)
      : wrap(`Copied to '${target}': entries ${report.entriesAdded}.`, context.columns),
  );
  sayNotes({ notes: report.notes, findings: report.findings }, context);
}
