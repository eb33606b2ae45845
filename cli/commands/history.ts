import { type Command, Option } from "commander";
import type { HistoryFilter } from "../../src/public/boothkeep.ts";
import type { Entry } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { sayNotes } from "../say-notes.ts";
import { REASON_CHOICES } from "./record.ts";

/** Options that choose among entries; `find` has them too. */
export interface FilterOptions {
  readonly site?: string;
  readonly screen?: string;
  readonly model?: string;
  readonly serial?: string;
  readonly reason?: Entry["reason"];
  readonly from?: string;
  readonly until?: string;
  readonly json?: boolean;
}

const HELP = `
Entries of a screen stand in the order in which they follow each other; dates
are what the writers' clocks said. Reads only the screens that are asked for.

Exit codes: 0 listed, 2 wrong use or unreadable, 3 listed, but something is
missing, damaged or cannot be trusted.

  boothkeep history logbook --site lantern-mill --screen screen-1
  boothkeep history logbook --reason as-found --from 2026-01-01T00:00:00Z`;

export function addHistory(program: Command, context: Context): void {
  addFilters(program.command("history"))
    .summary("list the entries of a logbook")
    .description("Lists the entries of a logbook.")
    .argument("<logbook>", "folder of the logbook")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, options: FilterOptions) => list(logbook, options, context));
}

/** Adds the options that choose among entries. */
export function addFilters(command: Command): Command {
  return command
    .option(...SITE_OPTION)
    .option(...SCREEN_OPTION)
    .option("--model <profile>", "unit profile that the unit had")
    .option("--serial <number>", "serial number of the unit")
    .addOption(new Option("--reason <reason>", "why it was taken").choices(REASON_CHOICES))
    .option("--from <time>", "not before, RFC 3339 with offset")
    .option("--until <time>", "before, RFC 3339 with offset");
}

async function list(folder: string, options: FilterOptions, context: Context): Promise<void> {
  const { history } = await import("../../src/public/boothkeep.ts");
  const logbook = await openLogbookFolder(folder, context);
  const result = history(logbook, filterOf(options));
  if (options.json === true) {
    context.out(jsonText(result));
  } else {
    const { historyReport, renderText } = await import("../../src/public/boothkeep.ts");
    const report = historyReport(result, folder);
    context.out(renderText(report, { columns: context.columns, color: context.color }));
  }
  sayNotes(result, context);
}

/** What the options ask for. */
export function filterOf(options: FilterOptions): HistoryFilter {
  const { site, screen, model, serial, reason, from, until } = options;
  return {
    ...(site === undefined ? {} : { siteId: site }),
    ...(screen === undefined ? {} : { screenId: screen }),
    ...(model === undefined ? {} : { profileId: model }),
    ...(serial === undefined ? {} : { serial }),
    ...(reason === undefined ? {} : { reasons: [reason] }),
    ...(from === undefined ? {} : { from }),
    ...(until === undefined ? {} : { until }),
  };
}
