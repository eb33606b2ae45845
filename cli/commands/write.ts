import type { Command } from "commander";
import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import type {
  AddedItem,
  LeftField,
  RemovedItem,
  SilentValue,
  WrittenExport,
  WrittenPlace,
} from "../../src/public/exchange.ts";
import { harmless, jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { readFieldMapFile } from "../field-maps.ts";
import { readInput, writeNew } from "../files.ts";
import { indented, wrap } from "../wrap.ts";

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
writing what was read gives the same bytes. An item that the configuration has
more (an EQ band, an output) is added as a copy of its neighbour, one that it
lacks is taken out; values that the map does not know go along and are told.

What was written is read again and held against the configuration. Where the
export would round a value or has no room for it, nothing is written, unless
'--accept-losses' is given.

Exit codes: 0 written, 1 written but the export does not hold all fields,
2 wrong use, or the export cannot hold the configuration.

  boothkeep write --map maps/skarn-30.json as-left.json \\
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
  const { MAX_EXPORT_BYTES, writeExport } = await import("../../src/public/exchange.ts");
  const loaded = await readFieldMapFile(options.map, context);
  const configuration = await readConfigurationFile(file, context);
  const original = readInput(options.original, context.cwd, MAX_EXPORT_BYTES);
  const written = writeExport(configuration, original, loaded, {
    file: options.original,
    acceptLosses: options.acceptLosses === true,
  });
  const { bytes, ...told } = written;
  writeNew(options.out, bytes, context.cwd);
  if (options.json === true) context.out(jsonText({ file: options.out, ...told }));
  else context.out(await resultText(written, options.out, context));
  if (told.left.length > 0) context.exit(EXIT_CODE.found);
}

const SHOWN = 30;

const REASONS: Readonly<Record<LeftField["reason"], string>> = {
  outside: "not part of the export",
  rounded: "rounded by the export",
  "no-room": "no room in the export",
  "item-missing": "could not be added",
  "item-kept": "could not be taken out",
};

async function resultText(written: WrittenExport, out: string, context: Context): Promise<string> {
  const { cautionBlock } = await import("../../src/public/report.ts");
  const { renderText } = await import("../../src/public/boothkeep.ts");
  const { changed, added, removed, left, beyond } = written;
  const isSame = changed.length + added.length + removed.length === 0;
  const lines = [
    isSame ? "Nothing differs: the bytes are those of the original." : `Places changed: ${changed.length}`,
    ...shown(changed, placeWords, context),
  ];
  if (added.length > 0) lines.push("", `Items added: ${added.length}`, ...shown(added, addedWords, context));
  if (removed.length > 0)
    lines.push("", `Items taken out: ${removed.length}`, ...shown(removed, removedWords, context));
  if (left.length > 0)
    lines.push(
      "",
      `Fields that the export does not hold so: ${left.length}`,
      ...shown(left, leftWords, context),
    );
  if (beyond.length > 0) {
    const words = `Not in the export, since the map has no rule for them: ${beyond.length} fields of the configuration. Enter them in the unit by hand; '--json' lists them.`;
    lines.push("", wrap(words, context.columns));
  }
  const cautions = renderText({ title: "Before you load it", blocks: [cautionBlock()] }, context);
  return [...lines, "", `Written: ${out}`, "", cautions].join("\n");
}

function shown<T>(all: readonly T[], words: (one: T) => string, { columns }: Context): readonly string[] {
  const lines = all.slice(0, SHOWN).map((one) => indented(harmless(words(one)), columns));
  return all.length > SHOWN ? [...lines, `  and ${all.length - SHOWN} more; --json lists them all`] : lines;
}

function placeWords({ line, pointer, before, after }: WrittenPlace): string {
  if (before === undefined) return `line ${line}: ${pointer}: new, ${after || "(empty)"}`;
  if (after === undefined)
    return `line ${line} of the original: ${pointer}: taken out, ${before || "(empty)"}`;
  return `line ${line}: ${pointer}: ${before || "(empty)"} becomes ${after || "(empty)"}`;
}

function addedWords({ line, list, key, like, copied }: AddedItem): string {
  const unknown = copied.map(silentWords).join(", ");
  const also = copied.length === 0 ? "" : `; copied unread, check in the unit: ${unknown}`;
  return `line ${line}: '${key}' in ${list}, written like '${like}'${also}`;
}

function removedWords({ line, list, key, lost }: RemovedItem): string {
  const also = lost.length === 0 ? "" : `; went unread: ${lost.map(silentWords).join(", ")}`;
  return `line ${line} of the original: '${key}' in ${list}${also}`;
}

const SHOWN_VALUES = 5;

function silentWords({ pointer, raw }: SilentValue, i: number): string {
  if (i >= SHOWN_VALUES) return "...";
  return `${pointer.slice(pointer.lastIndexOf("/") + 1)} = ${raw.slice(0, 20)}`;
}

function leftWords({ pointer, reason, wanted, held }: LeftField): string {
  if (reason === "item-missing") return `${pointer}: '${String(wanted)}' ${REASONS[reason]}`;
  if (reason === "item-kept") return `${pointer}: '${String(held)}' ${REASONS[reason]}`;
  const has = held === undefined ? "" : `, the export has ${JSON.stringify(held)}`;
  return `${pointer}: ${JSON.stringify(wanted)} is wanted${has} (${REASONS[reason]})`;
}
