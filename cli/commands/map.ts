import { basename } from "node:path";
import type { Command } from "commander";
import { EXIT_CODE, type UnitProfile } from "../../src/public/boothkeep.ts";
import type { LoadedMap, MapCheck, ProposedRule, StartedMap } from "../../src/public/exchange.ts";
import { harmless, jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { readFieldMapFile } from "../field-maps.ts";
import { readInput, writeNew } from "../files.ts";
import { findProfile, PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import { indented, wrap } from "../wrap.ts";

interface CheckOptions {
  readonly base?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

interface StartOptions {
  readonly out: string;
  readonly all?: boolean;
  readonly json?: boolean;
}

const MAP_HELP = `
A field map is a JSON document that a person writes: 'map start' proposes one,
schemas/field-map-guide.md explains every part with examples, and samples/maps
has maps that pass.`;

const CHECK_HELP = `
Every sample must read, and write back to the same bytes. Numbers are held
against the unit profile and against what is usual, since a value outside
mostly means a wrong unit of measure. Rules that no sample reaches are told.

Exit codes: 0 nothing found but advice, 1 something found, 2 wrong use.

  boothkeep map check maps/skarn-30.json exports/lantern-mill-1.xml
${PROFILES_HELP}`;

const START_HELP = `
What is proposed comes from names and values alone: which lists and tables
stand for outputs, presets, filters, what tells their items apart, and in
which units of measure numbers stand. Every rule has its reason and is for a
person to check; what no rule reads is told.

  boothkeep map start export.xml --out my-unit.json
  boothkeep map check my-unit.json export.xml`;

export function addMap(program: Command, context: Context): void {
  const map = program
    .command("map")
    .summary("check a field map, or begin one")
    .description("Field maps: how a unit's own export reads into a configuration and is written back.")
    .addHelpText("after", MAP_HELP);
  map
    .command("check")
    .summary("check a field map on sample exports")
    .description("Checks a field map on sample exports: do they read, go back to the same bytes, make sense?")
    .argument("<map>", "field map")
    .argument("<export...>", "sample exports")
    .option("--base <file>", "configuration that gives what the exports do not hold")
    .option(...PROFILES_OPTION)
    .option("--json", "print the result as one JSON document")
    .addHelpText("after", CHECK_HELP)
    .action((file: string, samples: readonly string[], options: CheckOptions) =>
      check(file, samples, options, context),
    );
  map
    .command("start")
    .summary("propose a first field map from an export")
    .description("Proposes a first field map from an export, for a person to finish.")
    .argument("<export>", "export of the unit")
    .requiredOption("--out <file>", "field map to be written")
    .option("--all", "tell every proposed rule with its reason")
    .option("--json", "print the result as one JSON document")
    .addHelpText("after", START_HELP)
    .action((file: string, options: StartOptions) => start(file, options, context));
}

async function check(
  file: string,
  names: readonly string[],
  options: CheckOptions,
  context: Context,
): Promise<void> {
  const { checkFieldMap, MAX_EXPORT_BYTES } = await import("../../src/public/exchange.ts");
  const loaded = await readFieldMapFile(file, context);
  const samples = names.map((name) => ({ name, bytes: readInput(name, context.cwd, MAX_EXPORT_BYTES) }));
  const base = options.base === undefined ? undefined : await readConfigurationFile(options.base, context);
  const profile = await profileOf(loaded, file, options, context);
  const result = checkFieldMap(loaded, samples, { base, profile });
  if (options.json === true) context.out(jsonText(result));
  else context.out(checkText(loaded, result, profile, context.columns));
  if (result.findings.some(({ severity }) => severity !== "advice")) context.exit(EXIT_CODE.found);
}

async function profileOf(
  { map }: LoadedMap,
  near: string,
  { profiles }: CheckOptions,
  context: Context,
): Promise<UnitProfile | undefined> {
  if (map.profileId === undefined) return undefined;
  return findProfile(map.profileId, { folder: profiles, near }, context);
}

const SHOWN_UNMAPPED = 40;

function checkText(
  { map }: LoadedMap,
  { findings, notices, unmapped, samples }: MapCheck,
  profile: UnitProfile | undefined,
  columns: number,
): string {
  const lines = [`${map.label}, revision ${map.revision}`, ""];
  for (const { name, values, fields } of samples) lines.push(`${name}: ${values} values, ${fields} fields`);
  if (profile === undefined)
    lines.push("The map names no unit profile: numbers are not held against a unit.");
  lines.push("", `Found on the samples: ${findings.length}`);
  for (const { severity, code, sample, pointer, words } of findings) {
    const where = [sample, pointer].filter((part) => part !== undefined && part !== "").join(" ");
    lines.push(indented(harmless(`${severity} ${code}: ${where}: ${words}`), columns));
  }
  const byPlace = notices.filter(({ kind }) => kind === "key-fixed");
  const told = notices.filter((notice) => !byPlace.includes(notice));
  lines.push("", `Cannot be written back, or only in part: ${told.length}`);
  for (const { pointer, words } of told) lines.push(indented(harmless(`${pointer}: ${words}`), columns));
  if (byPlace.length > 0)
    lines.push(
      wrap(`Keys that follow from an item's name or number in the export: ${byPlace.length}`, columns),
    );
  if (unmapped.length > 0) {
    const shown = unmapped.slice(0, SHOWN_UNMAPPED).join(", ");
    lines.push("", wrap(`Fields without a rule (${unmapped.length}): ${shown}`, columns));
  }
  return lines.join("\n");
}

async function start(file: string, options: StartOptions, context: Context): Promise<void> {
  const { MAX_EXPORT_BYTES, startFieldMap } = await import("../../src/public/exchange.ts");
  const id = basename(options.out)
    .replace(/\.json$/i, "")
    .replace(/[^A-Za-z0-9._-]+/g, "-")
    .slice(0, 64);
  const started = startFieldMap(readInput(file, context.cwd, MAX_EXPORT_BYTES), { id: id || "map" });
  writeNew(options.out, `${jsonText(started.map, 2)}\n`, context.cwd);
  if (options.json === true) context.out(jsonText({ file: options.out, ...started }));
  else context.out(startText(started, options, context));
}

const SHOWN_RULES = 24;

function startText(started: StartedMap, { out, all }: StartOptions, { columns }: Context): string {
  const { map, proposed, open, lacking } = started;
  const line = (text: string) => wrap(harmless(text), columns);
  const rule = ({ field, at, words }: ProposedRule) =>
    indented(harmless(`${field} from ${at}: ${words}`), columns);
  const lists = proposed.filter(({ kind }) => kind === "list");
  // Where a value is turned into another, a wrong guess does not show by itself.
  const turned = proposed.filter(({ kind }) => kind === "turned");
  const shown = all === true ? proposed : turned.slice(0, SHOWN_RULES);
  const lines = [
    `Read as ${map.source.kind}. Rules proposed: ${proposed.length}, of which lists: ${lists.length}`,
    ...lists.map(rule),
    "",
    all === true ? "All rules:" : `Values that are turned into others, check these first: ${turned.length}`,
    ...shown.map(rule),
  ];
  if (shown.length < turned.length) lines.push(`  and ${turned.length - shown.length} more`);
  if (all !== true) lines.push("'--all' tells every rule with its reason.");
  const { parts = [] } = map.source;
  if (parts.length > 0)
    lines.push(
      "",
      "Values taken apart:",
      ...parts.map(({ at, forms }) =>
        indented(harmless(`${at}: ${forms.map((form) => `'${form}'`).join(", ")}`), columns),
      ),
    );
  lines.push("", `Values without a rule: ${open.length === 0 ? "none" : `${open.length} kinds`}`);
  for (const { at, values, raw, line: first } of open.slice(0, SHOWN_RULES))
    lines.push(
      indented(harmless(`${at}: ${values}, the first '${raw.slice(0, 24)}' in line ${first}`), columns),
    );
  if (open.length > SHOWN_RULES)
    lines.push(`  and ${open.length - SHOWN_RULES} more kinds; --json lists them all`);
  if (lacking.length > 0) lines.push("", line(`No place was found for: ${lacking.join(", ")}`));
  lines.push("", `Written: ${out}`);
  const next =
    "Check each rule, add what is missing and what is ignored on purpose, then run 'boothkeep map check'.";
  return [...lines, line(next)].join("\n");
}
