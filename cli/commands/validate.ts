import type { Command } from "commander";
import {
  BoothkeepError,
  type CheckedScreen,
  type Configuration,
  EXIT_CODE,
  type ScreenToCheck,
  type Severity,
  type UnitProfile,
} from "../../src/public/boothkeep.ts";
import type { Standard } from "../../src/public/fleet.ts";
import { jsonText } from "../../src/public/report.ts";
import { type CheckInput, checkInputs, folderOfInput } from "../check-inputs.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { errorText } from "../error-text.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { progress } from "../progress.ts";
import { ownVersion } from "../version.ts";

interface ValidateOptions {
  readonly profiles?: string;
  readonly settings?: string;
  readonly severity: Severity;
  readonly only?: string;
  readonly json?: boolean;
  readonly sarif?: boolean;
}

const HELP = `
A file is a document or a pack; a folder is checked with everything in it; of
a logbook the latest entry of each screen is checked. Configurations go
through the whole rule book and are held against each other; other documents
are held against their schema.

Exit codes: 0 nothing found, 1 something found, 2 wrong use or unreadable
input (the rest is checked all the same), 3 a damaged pack or logbook.

  boothkeep validate screens
  boothkeep validate screen.json --severity warning --only crossover,level
  boothkeep validate screens --settings house-rules.json --sarif > check.sarif
${PROFILES_HELP}`;

export function addValidate(program: Command, context: Context): void {
  program
    .command("validate")
    .summary("check configurations by the rule book")
    .description("Checks configurations by the rule book: shape, unit, format, crossovers, time, level ...")
    .argument("<file...>", "documents, packs, folders, logbooks")
    .option(...PROFILES_OPTION)
    .option("--settings <file>", "rule settings: what is switched off, limited, acknowledged")
    .option("--severity <least>", "least severity shown: error, warning, advice", severityOf, "advice")
    .option("--only <codes>", "only these rules or families, with commas between")
    .option("--json", "print the result as one JSON document")
    .option("--sarif", "print the result as SARIF 2.1.0")
    .addHelpText("after", HELP)
    .action((files: readonly string[], options: ValidateOptions) => validate(files, options, context));
}

/** So many documents take no time worth a progress bar. */
const FEW = 100;

async function validate(files: readonly string[], options: ValidateOptions, context: Context): Promise<void> {
  const { checkScreens } = await import("../../src/public/boothkeep.ts");
  const { RULES } = await import("../../src/public/rules.ts");
  const only = options.only?.split(",").map((name) => name.trim());
  const settings =
    options.settings === undefined
      ? undefined
      : await readDocumentFile(options.settings, "boothkeep.rule-settings", context);
  checkNames(
    only ?? [],
    RULES.map(({ code }) => code),
  );
  const reading = new Reading(options, context);
  for (const file of files) await reading.read(file);
  const today = context.now().toISOString().slice(0, 10);
  const bar = progress(context, "Checked", reading.screens.length < FEW ? 0 : reading.screens.length);
  const { severity } = options;
  const checked = checkScreens(reading.screens, { settings, today, only, severity, onChecked: bar.at });
  bar.end();
  await print(checked, reading, options, context);
  for (const error of reading.errors) context.exit(error.exitCode);
  if (checked.some(({ findings, unlisted }) => findings.length + unlisted > 0)) context.exit(EXIT_CODE.found);
}

/** Reads what is to be checked; what cannot be read is said at once and does not stop the rest. */
class Reading {
  readonly screens: ScreenToCheck[] = [];
  readonly errors: BoothkeepError[] = [];
  /** What was read, where places are told by line and column. */
  readonly texts = new Map<string, Uint8Array | string>();
  readonly #profiles = new Map<string, UnitProfile | undefined>();
  readonly #options: ValidateOptions;
  readonly #context: Context;

  constructor(options: ValidateOptions, context: Context) {
    this.#options = options;
    this.#context = context;
  }

  async read(file: string): Promise<void> {
    const inputs = checkInputs(file, this.#context)[Symbol.asyncIterator]();
    for (;;) {
      try {
        const { done, value } = await inputs.next();
        if (done === true) return;
        await this.#add(value);
      } catch (error) {
        this.#say(error);
        return;
      }
    }
  }

  async #add(input: CheckInput): Promise<void> {
    const { inspectDocument } = await import("../../src/public/model.ts");
    const { name, content, found } = input;
    try {
      const { kind, document, shape, warnings } = inspectDocument(content, { file: name });
      for (const { words } of warnings) this.#context.err(`boothkeep: ${name}: ${words}`);
      if (this.#options.sarif === true) this.texts.set(name, content);
      if (shape.total > 0) {
        this.screens.push({ name, problems: shape.problems, problemCount: shape.total });
      } else if (kind === "boothkeep.configuration") {
        const configuration = document as Configuration;
        const profile = input.profile ?? (await this.#profileOf(configuration, input));
        this.screens.push({ name, configuration, profile });
      } else {
        if (kind === "boothkeep.standard") {
          const { compiledAt } = await import("../read-standard.ts");
          compiledAt(name, document as Standard);
        }
        if (!found) this.screens.push({ name });
      }
    } catch (error) {
      // In a folder, a JSON file that is none of ours is nobody's mistake.
      if (found && error instanceof BoothkeepError && error.code === "document.wrong-kind") return;
      this.#say(error);
    }
  }

  async #profileOf({ unit }: Configuration, { near }: CheckInput): Promise<UnitProfile | undefined> {
    const folder = this.#options.profiles;
    const key = `${unit.profileId}\n${folder ?? folderOfInput(near, this.#context)}`;
    if (!this.#profiles.has(key)) {
      try {
        this.#profiles.set(key, await findProfile(unit.profileId, { folder, near }, this.#context));
      } catch (error) {
        this.#profiles.set(key, undefined);
        this.#say(error);
      }
    }
    return this.#profiles.get(key);
  }

  #say(error: unknown): void {
    if (!(error instanceof BoothkeepError)) throw error;
    this.errors.push(error);
    if (this.#options.json !== true) this.#context.err(errorText(error, this.#context.columns));
  }
}

async function print(
  checked: readonly CheckedScreen[],
  { errors, texts }: Reading,
  { json, sarif }: ValidateOptions,
  context: Context,
): Promise<void> {
  if (json === true) {
    context.out(jsonText({ documents: checked, errors: errors.map((error) => error.toJSON()) }));
  } else if (sarif === true) {
    const { renderSarif } = await import("../../src/public/report.ts");
    const { RULES } = await import("../../src/public/rules.ts");
    const position = await positionsIn(texts);
    context.out(renderSarif(checked, { version: ownVersion(), rules: RULES, position }));
  } else {
    const { renderText, validationReport } = await import("../../src/public/boothkeep.ts");
    context.out(renderText(validationReport(checked), { columns: context.columns, color: context.color }));
  }
}

/** Line and column of places, looked up in the text of each document once. */
async function positionsIn(texts: ReadonlyMap<string, Uint8Array | string>) {
  const { valuePositions } = await import("../../src/public/model.ts");
  const known = new Map<string, ReturnType<typeof valuePositions>>();
  return (name: string, pointer: string) => {
    const content = texts.get(name);
    if (content === undefined) return undefined;
    const text = typeof content === "string" ? content : new TextDecoder().decode(content);
    if (!known.has(name)) known.set(name, valuePositions(text));
    return known.get(name)!.get(pointer);
  };
}

function severityOf(text: string): Severity {
  if (text === "error" || text === "warning" || text === "advice") return text;
  throw new BoothkeepError("usage.wrong", `There is no severity '${text}'.`, {
    next: "Choose error, warning or advice.",
  });
}

function checkNames(only: readonly string[], codes: readonly string[]): void {
  const known = new Set(codes.flatMap((code) => [code, code.split("/")[0]!]));
  for (const name of only) {
    if (known.has(name)) continue;
    throw new BoothkeepError("usage.wrong", `There is no rule or family '${name}'.`, {
      next: "'boothkeep rules' lists the rule book.",
    });
  }
}
