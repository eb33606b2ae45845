import { type Command, Option } from "commander";
import {
  BoothkeepError,
  type CompareOptions,
  type Comparison,
  type Configuration,
  EXIT_CODE,
} from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import { houseStandard, STANDARD_OPTION } from "../house-standard.ts";
import { PROFILES_HELP, PROFILES_OPTION, profileAtHand } from "../profiles.ts";
import { wrap } from "../wrap.ts";

const FORMATS = ["text", "markdown", "html", "json", "patch"] as const;

interface CompareCommandOptions {
  readonly standard?: string;
  readonly format: (typeof FORMATS)[number];
  readonly json?: boolean;
  readonly raw?: boolean;
  readonly curves?: boolean;
  readonly out?: string;
  readonly toleranceDb?: number;
  readonly toleranceMs?: number;
  readonly profiles?: string;
}

const HELP = `
Says what differs in an engineer's words, most serious first: who will hear
it, and whether drivers or people are guarded less than before. Documents of
two models are compared by loudspeaker and way, not by connector.

Exit codes: 0 nothing differs that counts, 1 something does,
2 wrong use or unreadable input.

  boothkeep compare as-left.json as-found.json
  boothkeep compare as-left.json as-found.json --format html --out visit.html
  boothkeep compare as-left.json as-found.json --standard house.json
  boothkeep compare as-left.json as-found.json --format patch

'--format patch' gives a JSON Patch (RFC 6902) from the first to the second;
exchange the two files for the way back.
${PROFILES_HELP}
Without a profile the graphic EQ counts as having the usual width of band.`;

export function addCompare(program: Command, context: Context): void {
  program
    .command("compare")
    .summary("say what differs between two configurations")
    .description("Says what differs between two configurations and what it means.")
    .argument("<before>", "configuration as it was")
    .argument("<after>", "configuration as it is")
    .option(...STANDARD_OPTION)
    .addOption(new Option("--format <format>", "how to print").choices(FORMATS).default("text"))
    .option("--json", "print one JSON document (as --format json)")
    .option("--raw", "list every differing value too")
    .option("--curves", "with JSON: add the responses before and after")
    .option("--out <file>", "write to a new file instead")
    .option("--tolerance-db <dB>", "level differences up to this are only counted (default: 0.05)", amount)
    .option(
      "--tolerance-ms <ms>",
      "delay differences up to this are only counted (default: half a sample at 48 kHz)",
      amount,
    )
    .option(...PROFILES_OPTION)
    .addHelpText("after", HELP)
    .action((before: string, after: string, options: CompareCommandOptions) =>
      compare(before, after, options, context),
    );
}

function amount(text: string): number {
  const value = Number(text);
  if (text.trim() !== "" && Number.isFinite(value) && value >= 0) return value;
  throw new BoothkeepError("usage.wrong", `'${text}' is no tolerance.`, {
    next: "Give a number that is not negative: --tolerance-db 0.1",
  });
}

async function compare(
  beforeFile: string,
  afterFile: string,
  options: CompareCommandOptions,
  context: Context,
): Promise<void> {
  const before = await readConfigurationFile(beforeFile, context);
  const after = await readConfigurationFile(afterFile, context);
  const standard =
    options.standard === undefined
      ? undefined
      : await houseStandard(options.standard, after, options.profiles, context);
  const format = options.json ? "json" : options.format;
  const { compareConfigurations } = await import("../../src/public/boothkeep.ts");
  const { compareVisit, comparedSide } = await import("../../src/public/diff.ts");
  const side = async (configuration: Configuration, near: string) => {
    const search = { folder: options.profiles, near };
    return comparedSide(configuration, await profileAtHand(configuration.unit.profileId, search, context));
  };
  const settings: CompareOptions = {
    tolerances: {
      ...(options.toleranceDb === undefined
        ? {}
        : { levelDb: options.toleranceDb, responseDb: options.toleranceDb }),
      ...(options.toleranceMs === undefined ? {} : { delayMs: options.toleranceMs }),
    },
    before: await side(before, beforeFile),
    after: await side(after, afterFile),
    curves: format === "html" || format === "markdown" || options.curves === true,
  };
  const comparison =
    standard === undefined
      ? compareConfigurations(before, after, settings)
      : compareVisit({ asLeft: before, asFound: after, standard }, settings);
  const text = await printed(comparison, {
    format,
    before,
    after,
    origin: { before: beforeFile, after: afterFile },
    raw: options.raw === true,
    context,
  });
  if (options.out === undefined) context.out(text);
  else {
    writeNew(options.out, text.endsWith("\n") ? text : `${text}\n`, context.cwd);
    context.err(wrap(`Written to ${options.out}.`, context.columns));
  }
  const off = comparison.offStandard?.comparison.findings.length ?? 0;
  if (comparison.findings.length + off > 0) context.exit(EXIT_CODE.found);
}

interface Printing {
  readonly format: CompareCommandOptions["format"];
  readonly before: Configuration;
  readonly after: Configuration;
  readonly origin: { readonly before: string; readonly after: string };
  readonly raw: boolean;
  readonly context: Context;
}

async function printed(comparison: Comparison, printing: Printing): Promise<string> {
  const { format, before, after, origin, raw, context } = printing;
  if (format === "json") return jsonText(comparison);
  if (format === "patch") {
    const { jsonPatch } = await import("../../src/public/diff.ts");
    return jsonText(jsonPatch(before, after), 2);
  }
  const { comparisonReport, renderHtml, renderMarkdown, renderText } = await import(
    "../../src/public/boothkeep.ts"
  );
  if (format === "text") {
    const report = comparisonReport(comparison, { detail: "short", origin, raw });
    return renderText(report, { columns: context.columns, color: context.color });
  }
  const report = comparisonReport(comparison, {
    detail: "full",
    origin,
    raw,
    configurations: { before, after },
  });
  return format === "html" ? renderHtml(report) : renderMarkdown(report);
}
