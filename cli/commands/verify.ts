import { statSync } from "node:fs";
import { resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE, type Logbook } from "../../src/public/boothkeep.ts";
import type { HealReport } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { localDateTime } from "../logbook-options.ts";
import { openLogbookOrPack } from "../logbook-or-pack.ts";
import { type Progress, progress } from "../progress.ts";
import { openLogbookFolder } from "../restorable-entry.ts";

interface VerifyCommandOptions {
  readonly quick?: boolean;
  readonly sample?: number;
  readonly heal?: boolean;
  readonly healFrom?: string;
  readonly json?: boolean;
}

const HELP = `
Checks that every file is there and undamaged, puts every configuration
together, and checks links and signatures; says what can still be trusted.
'--quick' checks the files only, '--sample 10' about a tenth of everything.

'--heal-from OTHER' first brings over what is damaged or missing here from
another copy of the logbook; '--heal' sets missing marks and takes in records
that a sync client has renamed. Nothing is deleted: damaged files are set
aside in 'damaged'. Both may be interrupted and run again.

Exit codes: 0 everything that was checked can be trusted, 1 something is worth
a look, 2 wrong use or unreadable, 3 something is damaged or missing.

  boothkeep verify logbook
  boothkeep verify logbook --heal-from /media/stick/logbook`;

export function addVerify(program: Command, context: Context): void {
  program
    .command("verify")
    .summary("check a logbook, and heal it from another copy")
    .description("Checks a logbook and says what in it can be trusted.")
    .argument("<logbook>", "folder of the logbook")
    .option("--quick", "check the files only")
    .option("--sample <percent>", "check only so many in a hundred, chosen by chance", percent)
    .option("--heal", "heal what can be healed without another copy")
    .option("--heal-from <logbook>", "heal from another copy, or from a handover pack")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, options: VerifyCommandOptions) => check(logbook, options, context));
}

async function check(folder: string, options: VerifyCommandOptions, context: Context): Promise<void> {
  const { verifyLogbook } = await import("../../src/public/logbook.ts");
  const logbook = await openToCheck(folder, options, context);
  const healed = await heal(logbook, options, context);
  const shown = progressOf("Checked", context);
  const report = verifyLogbook(logbook, {
    depth: options.quick === true ? "files" : "contents",
    ...(options.sample === undefined ? {} : { sample: { share: options.sample / 100, chance: Math.random } }),
    onProgress: shown.step,
  });
  shown.end();
  if (options.json === true) {
    context.out(jsonText({ ...report, ...(healed === undefined ? {} : { healed }) }));
  } else {
    const { logbookCheckReport } = await import("../../src/public/report.ts");
    const { renderText } = await import("../../src/public/boothkeep.ts");
    const { columns, color } = context;
    context.out(renderText(logbookCheckReport(report, healed, folder), { columns, color }));
  }
  const severities = report.findings.map((finding) => finding.severity);
  if (severities.includes("error")) context.exit(EXIT_CODE.damaged);
  else if (severities.includes("warning")) context.exit(EXIT_CODE.found);
}

/** Where healing was asked for, a header that is lost or damaged is healed first: without it nothing opens. */
async function openToCheck(
  folder: string,
  { heal: alone, healFrom }: VerifyCommandOptions,
  context: Context,
): Promise<Logbook> {
  if (alone !== true && healFrom === undefined) return openLogbookFolder(folder, context);
  const { folderStore } = await import("../../src/public/boothkeep.ts");
  const { openAndHealHeader } = await import("../../src/public/logbook.ts");
  const store = (name: string) => folderStore(resolve(context.cwd, name));
  const isFolder =
    healFrom !== undefined &&
    statSync(resolve(context.cwd, healFrom), { throwIfNoEntry: false })?.isDirectory() === true;
  const { logbook, header } = openAndHealHeader(store(folder), isFolder ? store(healFrom) : undefined, {
    id: crypto.randomUUID(),
    healedAt: localDateTime(context.now()),
  });
  if (header !== "whole") context.err(`boothkeep: 'logbook.json' was lost or damaged: ${header}.`);
  return logbook;
}

async function heal(
  logbook: Logbook,
  { heal: alone, healFrom }: VerifyCommandOptions,
  context: Context,
): Promise<HealReport | undefined> {
  if (alone !== true && healFrom === undefined) return undefined;
  const { healLogbook, readPolicy } = await import("../../src/public/logbook.ts");
  const other =
    healFrom === undefined ? undefined : await openLogbookOrPack(healFrom, context, readPolicy(logbook));
  if (healFrom !== undefined && resolve(context.cwd, healFrom) === logbook.store.label) {
    throw new BoothkeepError("usage.wrong", "A logbook cannot be healed from itself.", {
      next: "Name another copy, or use '--heal'.",
    });
  }
  const shown = progressOf("Healed", context);
  const report = healLogbook(logbook, other, { onProgress: shown.step });
  shown.end();
  return report;
}

/** A progress display for work whose size is known with the first step. */
export function progressOf(
  label: string,
  context: Context,
): { readonly step: (done: number, total: number) => void; readonly end: () => void } {
  let shown: Progress | undefined;
  return {
    step: (done, total) => {
      shown ??= progress(context, label, total);
      shown.at(done);
    },
    end: () => shown?.end(),
  };
}

function percent(text: string): number {
  const value = Number(text);
  if (value > 0 && value <= 100) return value;
  throw new BoothkeepError("usage.wrong", `'${text}' is no share in percent.`, {
    next: "Give a number above 0, at most 100: --sample 10",
  });
}
