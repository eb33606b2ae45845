import { type CsvCell, csvText } from "../../../base/text/index.ts";
import type { DriftedScreen, DriftFinding } from "../../../fleet/drift/index.ts";
import type { TwinGroup } from "../../../fleet/likeness/index.ts";
import { fieldAt } from "../../../model/index.ts";
import type { ReportedDrift } from "./drift.ts";

const HEADER = [
  "Site",
  "Screen",
  "Against",
  "What",
  "Kind",
  "Severity",
  "Place",
  "Place in words",
  "Setting",
  "Should be",
  "Is",
  "Off by",
  "Unit",
  "Since",
  "Since entry",
  "In the first entry already",
  "Entry recorded for",
  "Recorded by",
  "Put right by",
  "Held because",
  "Accepted by decision on",
  "Accepted in entry",
];

const WHAT: Readonly<Record<DriftFinding["code"], string>> = {
  "standard/other-value": "other value",
  "standard/outside-limits": "outside limits",
  "standard/missing-item": "missing",
  "standard/extra-item": "not in the standard",
};

/**
 * Drift as CSV (RFC 4180): one row for each deviation of each screen, those that stay by decision last, then one for each odd place among screens that should
 * be alike. Numbers are cells of their own, so that a spreadsheet can sort and sum them.
 */
export function driftCsv(drift: ReportedDrift): string {
  const { id, version } = drift.standard;
  return csvText([
    HEADER,
    ...drift.findings.flatMap((finding) =>
      finding.screens.map((screen) => deviationRow(finding, screen, `${id} ${version}`)),
    ),
    ...drift.accepted.flatMap((finding) =>
      finding.screens.map((screen) => deviationRow(finding, screen, `${id} ${version}`)),
    ),
    ...drift.twins.flatMap(twinRows),
    ...drift.unread.map(({ name, words }) =>
      rowOf(name, { Against: `${id} ${version}`, What: "not read", "Place in words": words }),
    ),
  ]);
}

type Row = Readonly<Record<string, CsvCell>>;

function rowOf(name: string, row: Row): readonly CsvCell[] {
  const [Site = "", Screen = ""] = name.split("/");
  const all: Row = { Site, Screen, ...row };
  return HEADER.map((head) => all[head]);
}

function deviationRow(
  finding: DriftFinding,
  { name, actual, since, off, accepted }: DriftedScreen,
  standard: string,
) {
  const { code, kind, severity, place, words, label, unit, owner, reason } = finding;
  return rowOf(name, {
    Against: standard,
    What: WHAT[code],
    Kind: kind,
    Severity: severity,
    Place: place,
    "Place in words": words,
    Setting: label,
    "Should be": cellOf(finding.standard),
    Is: cellOf(actual),
    "Off by": off,
    Unit: unit,
    Since: since?.recordedAt,
    "Since entry": since?.number,
    "In the first entry already": since && (since.fromTheStart ? "yes" : "no"),
    "Entry recorded for": since?.reason,
    "Recorded by": since?.recordedBy,
    "Put right by": owner === "house" ? "applying the standard" : "hand",
    "Held because": reason,
    "Accepted by decision on": accepted?.recordedAt,
    "Accepted in entry": accepted?.number,
  });
}

function twinRows({ format, drives, profileId, screens, odd }: TwinGroup): readonly (readonly CsvCell[])[] {
  const Against = `${screens} screens in ${format}, ${drives.join(" and ")}, unit ${profileId}`;
  return odd.flatMap(({ place, field, usual, others }) =>
    others.flatMap(({ value, screens: names }) =>
      names.map((name) =>
        rowOf(name, {
          Against,
          What: "other than its twins",
          Place: place,
          Setting: fieldAt(field)?.label,
          "Should be": cellOf(usual),
          Is: cellOf(value),
          "Off by":
            typeof value === "number" && typeof usual === "number" ? difference(value, usual) : undefined,
          Unit: fieldAt(field)?.unit,
        }),
      ),
    ),
  );
}

/** Without the last digits that subtracting decimal fractions leaves. */
function difference(value: number, usual: number): number {
  return Number((value - usual).toPrecision(12));
}

/** A value as one cell; limits as "0 to 60", lists and items as JSON. */
function cellOf(value: unknown): CsvCell {
  if (value === null || value === undefined) return undefined;
  if (typeof value === "number" || typeof value === "string") return value;
  if (typeof value === "boolean") return value ? "yes" : "no";
  const isLimits =
    Array.isArray(value) && value.length === 2 && value.every((item) => typeof item === "number");
  return isLimits ? `${value[0]} to ${value[1]}` : JSON.stringify(value);
}
