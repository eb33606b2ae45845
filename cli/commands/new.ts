import type { Command } from "commander";
import { EXIT_CODE } from "../../src/errors/index.ts";
import type { LoudspeakerData, ScreenDescription } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { wrap } from "../wrap.ts";

interface NewOptions {
  readonly loudspeakers: string;
  readonly out: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

const HELP = `
The description says what stands in the room and what the booth plays
(schemas/screen-description.schema.json); the loudspeaker data says what data
sheets say (schemas/loudspeaker-data.schema.json). The result has no error of
the rule book; what it cannot know is listed as open.

Exit codes: 0 written, 1 written, and the rule book has warnings, 2 wrong use,
unreadable input, or a room that does not fit the unit (nothing is written).

  boothkeep new screen-1.json --loudspeakers data.json --out first.json
${PROFILES_HELP}`;

export function addNew(program: Command, context: Context): void {
  program
    .command("new")
    .summary("build a first configuration from a description")
    .description("Builds a first configuration of a screen from a short description and loudspeaker data.")
    .argument("<description>", "the screen in a few words")
    .requiredOption("--loudspeakers <file>", "loudspeaker data with the models that it names")
    .requiredOption("--out <file>", "configuration to write; must not exist")
    .option(...PROFILES_OPTION)
    .option("--json", "print findings and open points as one JSON document")
    .addHelpText("after", HELP)
    .action((file: string, options: NewOptions) => buildNew(file, options, context));
}

async function buildNew(file: string, options: NewOptions, context: Context): Promise<void> {
  const { buildConfiguration } = await import("../../src/commission/index.ts");
  const description = await readDocumentFile<ScreenDescription>(
    file,
    "boothkeep.screen-description",
    context,
  );
  const loudspeakers = await readDocumentFile<LoudspeakerData>(
    options.loudspeakers,
    "boothkeep.loudspeaker-data",
    context,
  );
  const search = { folder: options.profiles, near: file };
  const profile = await findProfile(description.unit.profileId, search, context);
  const { configuration, findings, open } = buildConfiguration({ description, loudspeakers, profile });
  writeNew(options.out, `${JSON.stringify(configuration, null, 2)}\n`, context.cwd);
  const warnings = findings.filter(({ severity }) => severity === "warning");
  if (options.json === true) context.out(JSON.stringify({ written: options.out, findings, open }));
  else context.out(await newText(options.out, findings.length, open, context.columns));
  if (warnings.length > 0) context.exit(EXIT_CODE.found);
}

async function newText(
  out: string,
  findings: number,
  open: readonly string[],
  columns: number,
): Promise<string> {
  const { CAUTIONS } = await import("../../src/report/index.ts");
  const items = (texts: readonly string[]) => texts.map((text) => wrap(`  - ${text}`, columns, "    "));
  return [
    wrap(`Written: ${out}`, columns),
    "",
    "Open, in the order of the work:",
    ...items(open),
    "",
    "Caution:",
    ...items(CAUTIONS.map(({ words }) => words)),
    "",
    wrap(`The rule book has no errors and ${findings} remarks; 'boothkeep validate' lists them.`, columns),
  ].join("\n");
}
