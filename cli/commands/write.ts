import type { Command } from "commander";
import { EXIT_CODE } from "../../src/errors/index.ts";
import type { LeftField, WrittenExport } from "../../src/fieldmap/index.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { readFieldMapFile } from "../field-maps.ts";
import { readInput, writeNew } from "../files.ts";
import { wrap } from "../wrap.ts";

interface WriteOptions {
  readonly map: string;
  readonly original: string;
  readonly out: string;
  readonly acceptLosses?: boolean;
  readonly json?: boolean;
}

const HELP = `
The original is an export of the same unit. All that the map does not know
stays in it as it is, and a value that is the same keeps its very characters:
writing what was read gives the same bytes. What was written is read again
and held against the configuration. Where the export would round a value or
has no room for it, nothing is written, unless '--accept-losses' is given.

Exit codes: 0 written, 1 written but the export does not hold all fields,
2 wrong use, or the export cannot hold the configuration.

  boothkeep write --map maps/gabbro-28.json as-left.json \\
    --original export.xml --out to-load.xml`;

export function addWrite(program: Command, context: Context): void {
  program
    .command("write")
    .summary("write a configuration back as a unit's own export")
    .description(
      "Writes a configuration into an export of the unit by a field map, changing only what differs.",
    )
    .argument("<configuration>", "configuration to write")
    .requiredOption("--map <file>", "field map")
    .requiredOption("--original <file>", "export of the same unit to write into; it stays as it is")
    .requiredOption("--out <file>", "export to be written")
    .option("--accept-losses", "write also what the export rounds or has no room for")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((file: string, options: WriteOptions) => write(file, options, context));
}

async function write(file: string, options: WriteOptions, context: Context): Promise<void> {
  const { writeExport } = await import("../../src/fieldmap/index.ts");
  const loaded = await readFieldMapFile(options.map, context);
  const configuration = await readConfigurationFile(file, context);
  const original = readInput(options.original, context.cwd);
  const written = writeExport(configuration, original, loaded, {
    file: options.original,
    acceptLosses: options.acceptLosses === true,
  });
  writeNew(options.out, written.bytes, context.cwd);
  const { changed, left } = written;
  if (options.json === true) context.out(JSON.stringify({ file: options.out, changed, left }));
  else context.out(await resultText(written, options.out, context));
  if (left.length > 0) context.exit(EXIT_CODE.found);
}

const SHOWN = 30;

const REASONS: Readonly<Record<LeftField["reason"], string>> = {
  outside: "not part of the export",
  rounded: "rounded by the export",
  "no-room": "no room in the export",
};

async function resultText({ changed, left }: WrittenExport, out: string, context: Context): Promise<string> {
  const { cautionBlock, renderText } = await import("../../src/report/index.ts");
  const lines = [
    changed.length === 0
      ? "Nothing differs: the bytes are those of the original."
      : `Places changed: ${changed.length}`,
  ];
  for (const { line, pointer, before, after } of changed.slice(0, SHOWN)) {
    lines.push(
      wrap(
        `  line ${line}: ${pointer}: ${before || "(empty)"} becomes ${after || "(empty)"}`,
        context.columns,
      ),
    );
  }
  if (changed.length > SHOWN) lines.push(`  and ${changed.length - SHOWN} more; --json lists them all`);
  if (left.length > 0) lines.push("", `Fields that the export does not hold so: ${left.length}`);
  for (const { pointer, reason, wanted, held } of left.slice(0, SHOWN)) {
    const has = held === undefined ? "" : `, the export has ${JSON.stringify(held)}`;
    lines.push(
      wrap(`  ${pointer}: ${JSON.stringify(wanted)} is wanted${has} (${REASONS[reason]})`, context.columns),
    );
  }
  const cautions = renderText({ title: "Before you load it", blocks: [cautionBlock()] }, context);
  return [...lines, "", `Written: ${out}`, "", cautions].join("\n");
}
