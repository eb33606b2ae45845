import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { writeNew } from "../files.ts";
import { SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { wrap } from "../wrap.ts";

interface ShowOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly out?: string;
  readonly attachment?: string;
  readonly json?: boolean;
}

const HELP = `
Without an id: the latest entry of the screen that was not withdrawn. '--out'
writes the entry's configuration to a new file, with '--attachment' one of the
files that are kept with it. To load a unit, use 'boothkeep restore', which
checks the signature policy and the unit.

Exit codes: 0 shown, 2 wrong use, or no such entry, 3 it cannot be trusted, or
records of its screen are missing or damaged.

  boothkeep show logbook --site lantern-mill --screen screen-1
  boothkeep show logbook 3b98d5e870d6 --out as-left.json`;

export function addShow(program: Command, context: Context): void {
  program
    .command("show")
    .summary("show an entry, or write its configuration to a file")
    .description("Shows an entry of a logbook.")
    .argument("<logbook>", "folder of the logbook")
    .argument("[id]", "id of the entry, or its first digits")
    .option(...SITE_OPTION)
    .option(...SCREEN_OPTION)
    .option("--out <file>", "write the configuration to a new file")
    .option("--attachment <name>", "with --out: write this attachment instead")
    .option("--json", "print entry and configuration as one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, id: string | undefined, options: ShowOptions) =>
      show(logbook, id, options, context),
    );
}

async function show(
  folder: string,
  id: string | undefined,
  options: ShowOptions,
  context: Context,
): Promise<void> {
  const { findEntry, readAttachment } = await import("../../src/public/logbook.ts");
  const { readEntry } = await import("../../src/public/boothkeep.ts");
  const logbook = await openLogbookFolder(folder, context);
  const { item, note, findings } = findEntry(logbook, {
    ...(id === undefined ? {} : { id }),
    ...(options.site === undefined ? {} : { siteId: options.site }),
    ...(options.screen === undefined ? {} : { screenId: options.screen }),
  });
  const exact = { id: item.id, siteId: item.entry.siteId, screenId: item.entry.screenId };
  const { verdicts } = item.standing;
  sayNotes({ notes: note === undefined ? [] : [note], findings }, context);
  if (item.standing.refusal !== undefined) context.exit(EXIT_CODE.damaged);
  if (options.out !== undefined && options.attachment !== undefined) {
    writeNew(
      options.out,
      readAttachment(logbook, sha256OfAttachment(item.entry, options.attachment)),
      context.cwd,
    );
  } else if (options.out !== undefined) {
    const { configuration } = readEntry(logbook, exact);
    writeNew(options.out, `${jsonText(configuration, 2)}\n`, context.cwd);
  }
  if (options.json === true) {
    const { configuration } = readEntry(logbook, exact);
    context.out(jsonText({ ...item, verdicts, configuration, findings }));
    return;
  }
  const isWhole = canBeRead(() => readEntry(logbook, exact));
  const { entryReport } = await import("../../src/public/report.ts");
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const report = entryReport({ item, verdicts, isWhole, findings });
  context.out(renderText(report, { columns: context.columns, color: context.color }));
  if (options.out !== undefined) context.err(wrap(`Written to ${options.out}.`, context.columns));
  if (!isWhole) context.exit(EXIT_CODE.damaged);
}

const UNTRUSTED: ReadonlySet<string> = new Set([
  "logbook.lost-configuration",
  "logbook.other-screen",
  "logbook.not-canonical",
]);

function canBeRead(read: () => unknown): boolean {
  try {
    read();
    return true;
  } catch (error) {
    if (error instanceof BoothkeepError && UNTRUSTED.has(error.code)) return false;
    throw error;
  }
}

function sha256OfAttachment(
  {
    attachments = [],
  }: { readonly attachments?: readonly { readonly name: string; readonly sha256: string }[] },
  name: string,
): string {
  const found = attachments.find((attachment) => attachment.name === name);
  if (found !== undefined) return found.sha256;
  throw new BoothkeepError("usage.wrong", `The entry has no attachment '${name}'.`, {
    next:
      attachments.length === 0
        ? "This entry has none."
        : `It has: ${attachments.map((attachment) => attachment.name).join(", ")}.`,
  });
}
