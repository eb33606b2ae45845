import {
  type Configuration,
  FIELDS,
  fieldAt,
  type ListRule,
  leaves,
  type MapRule,
  type UnitProfile,
} from "../../model/index.ts";
import { gridContains, gridRange, limitedNumbers } from "../../profile/index.ts";
import type { Account } from "./account.ts";
import type { LoadedMap, MapNotice } from "./load-map.ts";
import { accountOfExport, type OpenedExport, openExport } from "./read-export.ts";
import { writeExport } from "./writing/write-export.ts";

/** One thing that a check of a map found. */
export interface MapFinding {
  /**
   * `unread`: a sample does not fit. `not-same-bytes`: reading and writing back changes the export. `not-same-value`: a value
   * written and read again is another. `unknown-value`: no rule reads a value of a sample. `out-of-range`, `off-step`,
   * `implausible`: a number that the unit or the trade does not know, which mostly means a wrong unit of measure.
   * `not-reached`: a rule gave no value in any sample.
   */
  readonly code:
    | "unread"
    | "not-same-bytes"
    | "not-same-value"
    | "unknown-value"
    | "out-of-range"
    | "off-step"
    | "implausible"
    | "not-reached";
  readonly severity: "error" | "warning" | "advice";
  /** Name of the sample; absent where the finding is about the map. */
  readonly sample?: string;
  /** JSON Pointer in the export, the configuration or the map. */
  readonly pointer: string;
  readonly words: string;
}

/** What a check of a map has to say. */
export interface MapCheck {
  readonly findings: readonly MapFinding[];
  /** What cannot be inverted, known from the map alone. */
  readonly notices: readonly MapNotice[];
  /** Fields of a configuration for which the map has no rule. */
  readonly unmapped: readonly string[];
  readonly samples: readonly { readonly name: string; readonly values: number; readonly fields: number }[];
}

/** An export to try a field map on. */
export interface SampleExport {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What a field map is checked with. */
export interface CheckMapOptions {
  readonly profile?: UnitProfile | undefined;
  /** Gives what the samples do not hold. */
  readonly base?: Configuration | undefined;
}

const SHOWN_A_SAMPLE = 20;

/** Checks a map on sample exports: do they read, go back to the same bytes, and make sense for the unit? */
export function checkFieldMap(
  loaded: LoadedMap,
  samples: readonly SampleExport[],
  options: CheckMapOptions = {},
): MapCheck {
  const findings: MapFinding[] = [];
  const reached = new Set<MapRule>();
  const told: { name: string; values: number; fields: number }[] = [];
  for (const sample of samples) {
    const opened = attempt(sample, loaded, options, findings);
    if (opened === undefined) continue;
    for (const rule of opened.interpretation.reached) reached.add(rule);
    const account = accountOfExport(opened, loaded);
    const { counts, fields } = account;
    told.push({ name: sample.name, values: counts.values, fields: fields.length });
    findings.push(...unknownFindings(sample, account), ...lawFindings(sample, opened, loaded));
    findings.push(...plausibility(sample, opened, options.profile));
  }
  if (told.length > 0) findings.push(...notReached(loaded.map.rules, "/rules", reached));
  return { findings, notices: loaded.notices, unmapped: unmappedFields(loaded), samples: told };
}

function attempt(
  sample: SampleExport,
  loaded: LoadedMap,
  { base }: CheckMapOptions,
  findings: MapFinding[],
): OpenedExport | undefined {
  try {
    return openExport(sample.bytes, loaded, base === undefined ? {} : { base });
  } catch (error) {
    if (!(error instanceof Error) || !("code" in error)) throw error;
    const words = error.message;
    findings.push({ code: "unread", severity: "error", sample: sample.name, pointer: "", words });
    return undefined;
  }
}

function unknownFindings({ name }: SampleExport, { unknown }: Account): readonly MapFinding[] {
  return unknown.slice(0, SHOWN_A_SAMPLE).map(({ pointer, raw, line }) => ({
    code: "unknown-value",
    severity: "warning",
    sample: name,
    pointer,
    words: `Line ${line}: '${raw.slice(0, 40)}' is read by no rule and not ignored.`,
  }));
}

/** The laws: what was read writes back to the same bytes; each value written anew reads as the same. */
function lawFindings(sample: SampleExport, opened: OpenedExport, loaded: LoadedMap): readonly MapFinding[] {
  const findings: MapFinding[] = [];
  const written = writeExport(opened.configuration, sample.bytes, loaded, { acceptLosses: true });
  for (const { pointer, before, after } of written.changed.slice(0, SHOWN_A_SAMPLE)) {
    const words = `Reading and writing back turns '${before?.slice(0, 40) ?? ""}' into '${after?.slice(0, 40) ?? ""}'.`;
    findings.push({ code: "not-same-bytes", severity: "error", sample: sample.name, pointer, words });
  }
  for (const { pointer, wanted, held } of written.left.slice(0, SHOWN_A_SAMPLE)) {
    const words = `${JSON.stringify(wanted)} reads as ${JSON.stringify(held ?? null)} after writing back.`;
    findings.push({ code: "not-same-value", severity: "error", sample: sample.name, pointer, words });
  }
  return findings;
}

/** Above these a value is read in a wrong unit more often than meant. Common practice, no source. */
const IMPLAUSIBLE: readonly (readonly [pattern: RegExp, limit: number, words: string])[] = [
  [/\/outputs\/\d+\/delayMs$/, 50, "more than 50 ms (17 m) on one output"],
  [/\/channels\/\d+\/delayMs$/, 116, "more than 116 ms (40 m) on a channel"],
  [/\/(?:filters|parametric)\/\d+\/gainDb$/, 18, "a filter of more than 18 dB"],
  [/\/gainsDb\/\d+$/, 15, "a graphic EQ band of more than 15 dB"],
  [/\/loudspeakers\/\d+\/distanceM$/, 60, "a loudspeaker more than 60 m away"],
];

function plausibility(
  { name }: SampleExport,
  { configuration }: OpenedExport,
  profile: UnitProfile | undefined,
): readonly MapFinding[] {
  const findings: MapFinding[] = [];
  const add = (code: MapFinding["code"], pointer: string, words: string) => {
    findings.push({ code, severity: "warning", sample: name, pointer, words });
  };
  for (const { pointer, value } of leaves(configuration)) {
    const limit = IMPLAUSIBLE.find(([pattern]) => pattern.test(pointer));
    if (limit !== undefined && typeof value === "number" && Math.abs(value) > limit[1])
      add("implausible", pointer, `${value} is ${limit[2]}: is the unit of measure right?`);
  }
  if (profile === undefined) return findings;
  for (const { path, value, unit, grid, tolerance } of limitedNumbers(configuration, profile)) {
    const { min, max } = gridRange(grid);
    const pointer = `/${path.join("/")}`;
    const words = `${value} ${unit} lies outside ${min} to ${max} ${unit} of ${profile.label}`.replace(
      / {2,}/g,
      " ",
    );
    if (value < min - tolerance || value > max + tolerance) add("out-of-range", pointer, `${words}.`);
    else if (!gridContains(grid, value, tolerance)) {
      add(
        "off-step",
        pointer,
        `${value} ${unit} is none of the steps of ${profile.label}.`.replace(/ {2,}/g, " "),
      );
    }
  }
  return findings;
}

function notReached(
  rules: readonly MapRule[],
  at: string,
  reached: ReadonlySet<MapRule>,
): readonly MapFinding[] {
  return rules.flatMap((rule, i) => {
    const pointer = `${at}/${i}`;
    const inner =
      rule.kind === "list" && reached.has(rule) ? notReached(rule.rules, `${pointer}/rules`, reached) : [];
    if (reached.has(rule) || isPossiblyAbsent(rule)) return inner;
    const name = rule.kind === "list" ? (rule as ListRule).list : rule.field;
    const words = `No sample has a value for '${name}': this rule is untested.`;
    return [...inner, { code: "not-reached" as const, severity: "advice" as const, pointer, words }];
  });
}

/** A bypass switch that is nowhere on gives no field: nothing about the rule is untested then. */
function isPossiblyAbsent(rule: MapRule): boolean {
  return rule.kind === "fixed";
}

/** Fields that the map has no rule for, those of the document itself left out. */
function unmappedFields({ bound }: LoadedMap): readonly string[] {
  return FIELDS.filter(
    ({ path, owner }) => owner !== "document" && !bound.has(path) && fieldAt(path) !== undefined,
  ).map(({ path }) => path);
}
