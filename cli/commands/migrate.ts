import { existsSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/errors/index.ts";
import type { Configuration, Decisions, UnitProfile } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readInput, writeNew } from "../files.ts";

interface MigrateOptions {
  readonly to: string;
  readonly from?: string;
  readonly decisions?: string;
  readonly out?: string;
  readonly plan?: string;
  readonly sheets?: string;
  readonly json?: boolean;
}

const HELP = `
The plan accounts for every value of the configuration: kept, rounded,
refitted, moved, restaged, lost, or waiting for a decision (asks). Questions
are answered in a decisions file; without one, a file to fill in is written
beside the plan. The new configuration is written only when nothing is open.

Exit codes: 0 planned and proven, 1 planned, but the proof or the check found
something, 2 wrong use or unreadable input, 4 decisions are missing.

  boothkeep migrate screen.json --to new-unit.json --plan plan.json
  boothkeep migrate screen.json --to new-unit.json --decisions answers.json \\
    --out new.json --sheets papers`;

export function addMigrate(program: Command, context: Context): void {
  program
    .command("migrate")
    .summary("express a configuration for another unit")
    .description("Plans how a configuration goes onto another unit, and proves what it will sound like.")
    .argument("<file>", "configuration of the old unit")
    .requiredOption("--to <profile>", "profile of the new unit")
    .option("--from <profile>", "profile of the old unit (default: beside the new one, by its id)")
    .option("--decisions <file>", "answers to the plan's questions")
    .option("--out <new.json>", "write the new configuration here")
    .option("--plan <plan.json>", "write the plan here, and beside it a decisions file to fill in")
    .option("--sheets <folder>", "write report, re-patch sheet and entry sheet into this folder")
    .option("--json", "print the plan and the proof as one JSON document")
    .addHelpText("after", HELP)
    .action((file: string, options: MigrateOptions) => migrate(file, options, context));
}

async function migrate(file: string, options: MigrateOptions, context: Context): Promise<void> {
  const model = await import("../../src/model/index.ts");
  const { planMigration, decidedLosses, decisionsToFillIn, equalizerCurves } = await import(
    "../../src/migrate/index.ts"
  );
  const { prove } = await import("../../src/proof/index.ts");
  const { validateConfiguration } = await import("../../src/rules/index.ts");
  const { unitAcoustics } = await import("../../src/profile/index.ts");
  const read = (name: string) => readInput(name, context.cwd);

  const old: Configuration = model.readConfiguration(read(file), { file }).document;
  const to: UnitProfile = model.readProfile(read(options.to), { file: options.to }).document;
  const fromFile = options.from ?? besideProfile(options.to, old.unit.profileId, to, context.cwd);
  const from: UnitProfile = model.readProfile(read(fromFile), { file: fromFile }).document;
  const decisions =
    options.decisions === undefined ? undefined : readDecisions(model, options.decisions, read);

  const plan = planMigration(old, { from, to, decisions });
  const unitOf = (profile: UnitProfile, configuration: Configuration) => ({
    ...unitAcoustics(profile, configuration.unit.sampleRateHz),
    fader: profile.fader,
  });
  const proof = prove(old, plan.configuration, {
    beforeUnit: unitOf(from, old),
    afterUnit: unitOf(to, plan.configuration),
    givenUp: decidedLosses(plan, old),
  });
  const errors = validateConfiguration(plan.configuration, { profile: to }).filter(
    ({ severity }) => severity === "error",
  );

  const written: string[] = [];
  const write = (name: string, content: string) => {
    writeNew(name, content, context.cwd);
    written.push(name);
  };
  const pretty = (value: unknown) => `${JSON.stringify(value, null, 2)}\n`;
  if (options.plan !== undefined) {
    write(options.plan, pretty(plan));
    if (!plan.decided) {
      write(besidePlan(options.plan), pretty(decisionsToFillIn(plan, decisions)));
    }
  }
  if (options.out !== undefined && plan.decided) write(options.out, pretty(plan.configuration));
  const names = {
    screen: `${old.screen.siteName}, ${old.screen.screenName}`,
    from: from.label,
    to: to.label,
  };
  const report = await import("../../src/report/index.ts");
  if (options.sheets !== undefined) {
    const papers = {
      "plan-report": report.migrationPlanReport(plan, {
        names,
        curves: equalizerCurves(plan, old, { from, to }),
      }),
      "re-patch-sheet": report.repatchSheet(plan, { names }),
      "entry-sheet": report.entrySheet(plan.configuration, { profile: to }),
      proof: report.proofReport(proof),
    };
    for (const [name, document] of Object.entries(papers)) {
      write(join(options.sheets, `${name}.html`), report.renderHtml(document));
      write(join(options.sheets, `${name}.txt`), report.renderText(document, { columns: 80 }));
    }
  }

  if (options.json === true) {
    context.out(JSON.stringify({ plan, proof, findings: errors, written }));
  } else {
    context.out(report.renderText(report.migrationSummary(plan, { names }), textOptions(context)));
    context.out(
      endWords({ verdict: proof.verdict, errors: errors.length, decided: plan.decided, written, options }),
    );
  }
  if (!plan.decided) return context.exit(EXIT_CODE.decision);
  if (proof.verdict === "differs" || errors.length > 0) context.exit(EXIT_CODE.found);
}

function textOptions({ columns, color }: Context) {
  return { columns, color };
}

function readDecisions(
  model: typeof import("../../src/model/index.ts"),
  file: string,
  read: (name: string) => Uint8Array,
): Decisions {
  return model.readDocument<Decisions>(read(file), { file, expect: "boothkeep.decisions" }).document;
}

/** Where nobody says otherwise, profiles lie in one folder under their ids. */
function besideProfile(toFile: string, fromId: string, to: UnitProfile, cwd: string): string {
  if (fromId === to.id) return toFile;
  const file = join(dirname(toFile), `${fromId}.json`);
  if (existsSync(resolve(cwd, file))) return file;
  throw new BoothkeepError("profile.unknown", `There is no profile '${fromId}' beside '${toFile}'.`, {
    place: { file },
    next: "Name the old unit's profile with --from.",
  });
}

/** "plan.json" gives "plan.decisions.json". */
function besidePlan(planFile: string): string {
  return join(dirname(planFile), `${basename(planFile).replace(/\.json$/i, "")}.decisions.json`);
}

function endWords({
  verdict,
  errors,
  decided,
  written,
  options,
}: {
  readonly verdict: "equal" | "within-tolerance" | "differs";
  readonly errors: number;
  readonly decided: boolean;
  readonly written: readonly string[];
  readonly options: MigrateOptions;
}): string {
  const lines = [
    `Proof: ${VERDICT_WORDS[verdict]}`,
    errors === 0
      ? "Check: valid for the new unit."
      : `Check: ${errors} errors for the new unit; run 'boothkeep validate'.`,
    ...written.map((name) => `Written: ${name}`),
    decided ? "" : nextWords(options),
  ];
  return lines.filter((line) => line !== "").join("\n");
}

const VERDICT_WORDS = {
  equal: "every path is equal.",
  "within-tolerance": "every difference lies within the tolerances.",
  differs: "something differs; read the proof before anything is loaded.",
} as const;

function nextWords({ plan, out }: MigrateOptions): string {
  const notWritten = out === undefined ? "" : " The new configuration was not written.";
  return plan === undefined
    ? `Decisions are missing.${notWritten}\nNext: give --plan to get a decisions file to fill in.`
    : `Decisions are missing.${notWritten}\nNext: fill in ${besidePlan(plan)} and give it\nwith --decisions.`;
}
