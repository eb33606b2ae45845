import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE, type ReportDocument } from "../../src/public/boothkeep.ts";
import type { BuiltConfiguration } from "../../src/public/exchange.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { allProfiles, findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { wrap } from "../wrap.ts";

interface NewOptions {
  readonly loudspeakers?: string;
  readonly out?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

const HELP = `
Without a description, at a terminal, it asks one question after another and
writes the description beside the configuration (NAME.description.json), so
that it can be changed and built again.

The description says what stands in the room and what the booth plays
(schemas/screen-description.schema.json); the loudspeaker data says what data
sheets say (schemas/loudspeaker-data.schema.json). The result has no error of
the rule book; what it cannot know is listed as open.

Exit codes: 0 written, 1 written, and the rule book has warnings, or ended by
the person (nothing is written), 2 wrong use, unreadable input, or a room that
does not fit the unit (nothing is written).

  boothkeep new
  boothkeep new --loudspeakers data.json --profiles profiles
  boothkeep new screen-1.json --loudspeakers data.json --out first.json
${PROFILES_HELP}`;

export function addNew(program: Command, context: Context): void {
  program
    .command("new")
    .summary("build a first configuration by questions or a description")
    .description("Builds a first configuration of a screen, by questions or from a short description.")
    .argument("[description]", "the screen in a few words; without it: questions")
    .option("--loudspeakers <file>", "loudspeaker data with the models (asked for where missing)")
    .option("--out <file>", "configuration to write; must not exist (asked for where missing)")
    .option(...PROFILES_OPTION)
    .option("--json", "print findings and open points as one JSON document")
    .addHelpText("after", HELP)
    .action((file: string | undefined, options: NewOptions) =>
      file === undefined ? askForNew(options, context) : buildNew(file, options, context),
    );
}

async function buildNew(file: string, options: NewOptions, context: Context): Promise<void> {
  const { loudspeakers: data, out } = options;
  if (data === undefined || out === undefined) {
    throw new BoothkeepError("usage.wrong", "A description needs loudspeaker data and a file to write.", {
      next: `boothkeep new ${file} --loudspeakers DATA.json --out NEW.json`,
    });
  }
  const { buildConfiguration } = await import("../../src/public/exchange.ts");
  const description = await readDocumentFile(file, "boothkeep.screen-description", context);
  const loudspeakers = await readDocumentFile(data, "boothkeep.loudspeaker-data", context);
  const search = { folder: options.profiles, near: file };
  const profile = await findProfile(description.unit.profileId, search, context);
  const built = buildConfiguration({ description, loudspeakers, profile });
  writeNew(out, jsonFile(built.configuration), context.cwd);
  await tell(built, { written: [out], json: options.json === true }, context);
}

async function askForNew(options: NewOptions, context: Context): Promise<void> {
  if (!context.interactive) {
    throw new BoothkeepError("usage.wrong", "No description was named, and questions need a terminal.", {
      next: "Name a description (schemas/screen-description.schema.json says what stands in it): boothkeep new DESCRIPTION.json --loudspeakers DATA.json --out NEW.json",
    });
  }
  const { interview, RULES_OF_THE_TALK } = await import("../new/interview.ts");
  const { askForData } = await import("../new/ask-for-data.ts");
  const { typedLines } = await import("../new/typed-lines.ts");
  const profiles = await allProfiles({ folder: options.profiles }, context);
  const lines = typedLines(context);
  context.err(wrap(RULES_OF_THE_TALK, context.columns, ""));
  try {
    const loudspeakers = await askForData(options.loudspeakers, lines, context);
    const result =
      loudspeakers === undefined
        ? undefined
        : await interview({ profiles, loudspeakers }, lines, { out: options.out, context });
    if (result === undefined) {
      context.err("\nEnded; nothing was written.");
      return context.exit(EXIT_CODE.found);
    }
    const { description, descriptionOut, built, out } = result;
    context.err("");
    writeNew(descriptionOut, jsonFile(description), context.cwd);
    writeNew(out, jsonFile(built.configuration), context.cwd);
    await tell(built, { written: [descriptionOut, out], json: options.json === true }, context);
  } finally {
    lines.close();
  }
}

function jsonFile(document: unknown): string {
  return `${jsonText(document, 2)}\n`;
}

async function tell(
  { findings, open }: BuiltConfiguration,
  { written, json }: { readonly written: readonly string[]; readonly json: boolean },
  context: Context,
): Promise<void> {
  const warnings = findings.filter(({ severity }) => severity === "warning");
  if (json) context.out(jsonText({ written: written.at(-1), findings, open }));
  else context.out(await newText(written, findings.length, open, context));
  if (warnings.length > 0) context.exit(EXIT_CODE.found);
}

async function newText(
  written: readonly string[],
  remarks: number,
  open: readonly string[],
  { columns, color }: Context,
): Promise<string> {
  const { cautionBlock } = await import("../../src/public/report.ts");
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const report: ReportDocument = {
    title: "A first configuration, not an alignment",
    blocks: [
      { kind: "facts", pairs: written.map((file) => ["Written", file] as const) },
      cautionBlock(),
      { kind: "heading", level: 3, text: "Open, in the order of the work" },
      { kind: "list", marker: "box", items: open.map((text) => ({ text })) },
      {
        kind: "paragraph",
        text: `The rule book has no errors and ${remarks} remarks; 'boothkeep validate ${written.at(-1)}' lists them.`,
      },
    ],
  };
  return renderText(report, { columns, color });
}
