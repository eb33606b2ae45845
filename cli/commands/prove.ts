import type { Command } from "commander";
import { type Configuration, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile, readDocumentFile } from "../documents.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { formatOption, printReport, type ReportOptions } from "../report-output.ts";

interface ProveCommandOptions extends ReportOptions {
  readonly decisions?: string;
  readonly profiles?: string;
}

const HELP = `
Computes what becomes of every path when the second configuration takes the
place of the first: also for one that was edited by hand, on the same unit or
another. With '--decisions', the file that answered 'boothkeep migrate', what
was decided counts as decided, with the values that were decided.

Exit codes: 0 the same within the tolerances, or as decided, 1 something else
differs, 2 wrong use or unreadable input.

  boothkeep prove before.json after.json
  boothkeep prove before.json after.json --out proof.html
  boothkeep prove old.json new.json --decisions plan.decisions.json
${PROFILES_HELP}`;

export function addProve(program: Command, context: Context): void {
  program
    .command("prove")
    .summary("prove path by path that one configuration sounds like another")
    .description("Proves path by path what becomes of the sound when one configuration replaces another.")
    .argument("<before>", "configuration as it was")
    .argument("<after>", "configuration that takes its place")
    .option("--decisions <file>", "answers by which the first was planned for the unit of the second")
    .option("--out <file>", "write to a new file instead")
    .addOption(formatOption())
    .option("--json", "print the proof as one JSON document (as --format json)")
    .option(...PROFILES_OPTION)
    .addHelpText("after", HELP)
    .action((before: string, after: string, options: ProveCommandOptions) =>
      proveFiles({ before, after }, options, context),
    );
}

async function proveFiles(
  files: { readonly before: string; readonly after: string },
  options: ProveCommandOptions,
  context: Context,
): Promise<void> {
  const before = await readConfigurationFile(files.before, context);
  const after = await readConfigurationFile(files.after, context);
  const profileOf = (configuration: Configuration, near: string) =>
    findProfile(configuration.unit.profileId, { folder: options.profiles, near }, context);
  const [from, to] = [await profileOf(before, files.before), await profileOf(after, files.after)];
  const decisions =
    options.decisions === undefined
      ? undefined
      : await readDocumentFile(options.decisions, "boothkeep.decisions", context);
  const { namingAnswers, proveDocuments } = await import("../../src/public/migrate.ts");
  const proof = namingAnswers(options.decisions, () =>
    proveDocuments(before, after, { from, to, decisions }),
  );
  const { proofReport } = await import("../../src/public/boothkeep.ts");
  await printReport(proofReport(proof), { ...options, data: proof }, context);
  if (proof.verdict === "differs") context.exit(EXIT_CODE.found);
}
