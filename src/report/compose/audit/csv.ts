import { type CsvCell, csvText } from "../../../base/text/index.ts";
import type { Audit, AuditCheck, AuditedScreen } from "../../../model/index.ts";
import { CHECK_WORDS, STATE_WORDS } from "./words.ts";

/**
 * An audit as CSV (RFC 4180), one row a screen, two columns a check; for the standard also the first entry in which the
 * screen was off as it is now.
 */
export function auditCsv(audit: Audit): string {
  const checks = audit.counts.map(({ check }) => check);
  const header = [
    "Site",
    "Site name",
    "Screen",
    "Screen name",
    "Unit profile",
    "Serial number",
    "Firmware",
    "Entries",
    "Last entry at",
    "As left at",
    "Calibrated on",
    ...checks.flatMap((check) => [
      CHECK_WORDS[check],
      `${CHECK_WORDS[check]} in words`,
      ...(check === "standard" ? ["Off in places", "Off since", "Off since entry", "Off recorded by"] : []),
    ]),
  ];
  const rowOf = (screen: AuditedScreen) => [
    screen.siteId,
    screen.siteName,
    screen.screenId,
    screen.screenName,
    screen.profileId,
    screen.serial,
    screen.firmware,
    screen.entries,
    screen.lastEntryAt ?? "",
    screen.asLeftAt ?? "",
    screen.calibratedOn ?? "",
    ...checks.flatMap((name) => {
      const found = screen.checks.find(({ check }) => check === name);
      return [
        STATE_WORDS[found?.state ?? "unknown"],
        found?.words ?? "",
        ...(name === "standard" ? offCells(found) : []),
      ];
    }),
  ];
  return csvText([header, ...audit.screens.map(rowOf)]);
}

function offCells(check: AuditCheck | undefined): readonly CsvCell[] {
  const first = check?.since?.[0];
  return [
    check?.state === "warning" ? check.count : undefined,
    first?.recordedAt,
    first?.number,
    first?.recordedBy,
  ];
}
