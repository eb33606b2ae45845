import type { Command } from "commander";
import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { DriftPart } from "../../src/public/fleet.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { writeNew } from "../files.ts";
import { taskWorld } from "../fleet/task-context.ts";
import type { PlacedScreen } from "../fleet-screens.ts";
import { KnownProfiles } from "../known-profiles.ts";
import { PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";

interface DriftOptions {
  readonly profiles?: string;
  readonly csv?: string;
  readonly html?: string;
  readonly json?: boolean;
}

const HELP = `
A deviation is told once, however many screens have it: with how far off they
are and, from logbooks, since which entry and who recorded it. Below it: what
one screen has otherwise than all those of its format, drive and unit. What was
decided when the standard was applied, and is still as it was left then, is told
apart and is no drift. In JSON, findings refer to 'names' and 'entries' by
position.

Exit codes: 0 every screen follows the standard, 1 some do not,
2 wrong use or unreadable input, 3 a damaged logbook.

  boothkeep drift house-71.json logbook
  boothkeep drift house-71.json screens --html drift.html --csv drift.csv
${PROFILES_HELP}`;

export function addDrift(program: Command, context: Context): void {
  program
    .command("drift")
    .summary("hold screens against a house standard")
    .description("Holds screens against a house standard, and says which are off, how far, and since when.")
    .argument("<standard>", "the standard")
    .argument("<file...>", "configurations, packs, folders, logbooks")
    .option(...PROFILES_OPTION)
    .option("--csv <file>", "write one row for each deviation of each screen (RFC 4180)")
    .option("--html <file>", "write the report into this file too")
    .option("--json", "print the result as one JSON document")
    .addHelpText("after", HELP)
    .action((standard: string, files: readonly string[], options: DriftOptions) =>
      drift(standard, files, options, context),
    );
}

async function drift(
  file: string,
  files: readonly string[],
  options: DriftOptions,
  context: Context,
): Promise<void> {
  const { readStandard } = await import("../read-standard.ts");
  const { DriftJob } = await import("../../src/public/fleet.ts");
  const { overFleet } = await import("../fleet/over-fleet.ts");
  const compiled = await readStandard(file, context);
  const { standard } = compiled;
  const job = new DriftJob(compiled);
  const profiles = new KnownProfiles(options.profiles, context);
  const fleet = {
    task: "drift" as const,
    setup: { world: taskWorld(context), standard, profiles: options.profiles },
    label: "Held",
    onPart: (part: DriftPart) => job.addPart(part),
    onScreen: async (screen: PlacedScreen) => {
      const profile = await profiles.of(screen.configuration.unit.profileId, screen.near);
      job.add({ ...screen, profile });
    },
  };
  await overFleet(files, fleet, context);
  const result = job.result();
  const { driftCsv, driftJson, driftReport } = await import("../../src/public/report.ts");
  const { renderHtml, renderText } = await import("../../src/public/boothkeep.ts");
  const report = driftReport(result);
  if (options.csv !== undefined) writeNew(options.csv, driftCsv(result), context.cwd);
  if (options.html !== undefined) writeNew(options.html, renderHtml(report), context.cwd);
  if (options.json === true) context.out(jsonText(driftJson(result)));
  else {
    context.out(renderText(report, { columns: context.columns, color: context.color }));
    const written = [options.csv, options.html].filter((name) => name !== undefined);
    if (written.length > 0) context.out(`\nWritten: ${written.join(", ")}`);
  }
  if (result.findings.length > 0) context.exit(EXIT_CODE.found);
  if (result.unread.some(({ isDamaged }) => isDamaged)) context.exit(EXIT_CODE.damaged);
}
