import { readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE, type UnitProfile } from "../../src/public/boothkeep.ts";
import type { Audit, AuditGround, AuditRow, Standard } from "../../src/public/fleet.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readDocumentFile, readProfileFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { PROFILES_OPTION } from "../profiles.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { ownVersion } from "../version.ts";

interface AuditOptions {
  readonly profiles?: string;
  readonly standard?: readonly string[];
  readonly settings?: string;
  readonly earlier?: string;
  readonly days: string;
  readonly calibrationDays: string;
  readonly out?: string;
  readonly csv?: string;
  readonly html?: string;
  readonly json?: boolean;
}

const HELP = `
Checks, one column each: records whole; last entry not older than --days;
valid by the rule book; follows its standard; last entry signed; as it was
left; firmware that the unit profile knows; serial number and addresses of its
own; calibration not older than the EQ; as the other screens of its format,
drive and unit are.

States: act (an error), look (a warning), note (advice), unknown, good.

--earlier names the JSON of an audit before (--out): screens whose files did
not change are taken over from it, and what got better and worse is told.
Whether files still hold what their names say, only 'boothkeep verify' tells.

Exit codes: 0 nothing to do, 1 some screens need somebody, 2 wrong use or
unreadable input, 3 records are missing or damaged.

  boothkeep audit logbook --standard house-71.json --profiles profiles \\
    --out november.json --html november.html
  boothkeep audit logbook --earlier november.json --out december.json

Unit profiles are those in the folder that --profiles or BOOTHKEEP_PROFILES
names, else in the folder 'profiles' beside the first logbook.`;

export function addAudit(program: Command, context: Context): void {
  program
    .command("audit")
    .summary("tell which of many screens need somebody")
    .description("Audits every screen of one or more logbooks.")
    .argument("<logbook...>", "folders of logbooks")
    .option(...PROFILES_OPTION)
    .option("--standard <file...>", "house standards; each screen is held against those that are for it")
    .option("--settings <file>", "rule settings: what is switched off, limited, acknowledged")
    .option("--earlier <file>", "audit before this one, as JSON")
    .option("--days <number>", "days without an entry after which a screen is stale", "200")
    .option("--calibration-days <number>", "days after which a calibration is old", "730")
    .option("--out <file>", "write the audit as JSON")
    .option("--csv <file>", "write the audit as CSV (RFC 4180)")
    .option("--html <file>", "write the audit as one HTML page")
    .option("--json", "print audit and comparison as one JSON document")
    .addHelpText("after", HELP)
    .action((logbooks: readonly string[], options: AuditOptions) => audit(logbooks, options, context));
}

async function audit(logbooks: readonly string[], options: AuditOptions, context: Context): Promise<void> {
  const { assembleAudit, compareAudits, NO_ENTRY } = await import("../../src/public/fleet.ts");
  const staleAfterDays = daysOf(options.days);
  const calibrationDays = daysOf(options.calibrationDays);
  const earlier =
    options.earlier === undefined
      ? undefined
      : await readDocumentFile(options.earlier, "boothkeep.audit", context);
  const ground = await groundOf(logbooks, options, context);
  const rows = await rowsOf(logbooks, { ground, earlier }, context);
  const result = assembleAudit(rows, {
    auditedAt: context.now().toISOString(),
    staleAfterDays,
    calibrationDays,
    standards: ground.standards.map(({ id, version, title }) => ({ id, version, title })),
    layouts: earlier?.layouts ?? [],
  });
  const comparison = earlier && compareAudits(earlier, result);
  const { auditCsv, auditPage, auditReport, auditComparisonReport } = await import(
    "../../src/public/report.ts"
  );
  const { renderText } = await import("../../src/public/boothkeep.ts");
  if (options.out !== undefined) writeNew(options.out, `${jsonText(result)}\n`, context.cwd);
  if (options.csv !== undefined) writeNew(options.csv, auditCsv(result), context.cwd);
  if (options.html !== undefined) writeNew(options.html, auditPage(result, comparison), context.cwd);
  if (options.json === true) context.out(jsonText({ audit: result, comparison: comparison ?? null }));
  else {
    const { columns, color } = context;
    context.out(renderText(auditReport(result), { columns, color }));
    if (comparison !== undefined) {
      context.out(`\n${renderText(auditComparisonReport(comparison), { columns, color })}`);
    }
    const written = [options.out, options.csv, options.html].filter((file) => file !== undefined);
    if (written.length > 0) context.out(`\nWritten: ${written.join(", ")}`);
  }
  const needsSomebody = result.counts.some(({ warning, error }) => warning + error > 0);
  if (needsSomebody) context.exit(EXIT_CODE.found);
  const isDamaged = result.screens.some(({ checks }) =>
    checks.some(({ check, state, words }) => check === "readable" && state === "error" && words !== NO_ENTRY),
  );
  if (isDamaged) context.exit(EXIT_CODE.damaged);
}

async function groundOf(
  logbooks: readonly string[],
  options: AuditOptions,
  context: Context,
): Promise<AuditGround> {
  const standards: Standard[] = [];
  if (options.standard !== undefined) {
    const { readStandard } = await import("../read-standard.ts");
    for (const file of options.standard) standards.push((await readStandard(file, context)).standard);
  }
  const settings =
    options.settings === undefined
      ? undefined
      : await readDocumentFile(options.settings, "boothkeep.rule-settings", context);
  const folder = options.profiles ?? (context.env.BOOTHKEEP_PROFILES || join(logbooks[0]!, "..", "profiles"));
  return { standards, settings, profiles: await profilesIn(folder, context), programVersion: ownVersion() };
}

async function profilesIn(folder: string, context: Context): Promise<readonly UnitProfile[]> {
  let names: readonly string[] = [];
  try {
    names = readdirSync(resolve(context.cwd, folder)).filter((name) => name.endsWith(".json"));
  } catch {
    context.err(
      `boothkeep: there is no folder '${folder}': what units can do is not checked. Name it with --profiles.`,
    );
  }
  const profiles: UnitProfile[] = [];
  for (const name of [...names].sort()) profiles.push(await readProfileFile(join(folder, name), context));
  return profiles;
}

interface Rows {
  readonly ground: AuditGround;
  readonly earlier: Audit | undefined;
}

/** One row a screen: taken over where nothing changed that it rests on, made anew elsewhere. */
async function rowsOf(
  logbooks: readonly string[],
  { ground, earlier }: Rows,
  context: Context,
): Promise<readonly AuditRow[]> {
  const { rowsToKeep, screensToAudit } = await import("../../src/public/fleet.ts");
  const { spread } = await import("../workers/pool.ts");
  const { chunked, taskNotes, worthWorkers } = await import("../fleet/chunks.ts");
  const rows: AuditRow[] = [];
  for (const named of logbooks) {
    const path = resolve(context.cwd, named);
    const screens = screensToAudit(await openLogbookFolder(named, context), ground);
    const { kept, open } = rowsToKeep(screens, earlier?.screens ?? [], named);
    rows.push(...kept);
    const notes = taskNotes(context, "Audited", open.length);
    await spread({
      task: "audit",
      setup: { ground },
      inputs: chunked(open).map((some) => ({
        path,
        named,
        screens: some,
      })),
      worthWorkers: worthWorkers(open.length),
      onResult: (some) => rows.push(...some),
      onNote: notes.onNote,
    });
    notes.end();
  }
  return rows;
}

function daysOf(text: string): number {
  const days = Number(text);
  if (Number.isInteger(days) && days > 0) return days;
  throw new BoothkeepError("usage.wrong", `'${text}' is no number of days.`, {
    next: "Give a whole number above 0.",
  });
}
