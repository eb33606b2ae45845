import type { Audit, AuditedScreen } from "../../model/index.ts";
import { harmless } from "../../text/index.ts";
import { CHECK_WORDS, STATE_WORDS } from "./words.ts";

/**
 * An audit as CSV (RFC 4180: comma, CRLF, quotes doubled), one row a screen, two columns a check. Cells that a spreadsheet
 * would run as a formula are made harmless by an apostrophe before them (OWASP, CSV Injection).
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
    "Last entry",
    "As left",
    "Calibrated",
    ...checks.flatMap((check) => [CHECK_WORDS[check], `${CHECK_WORDS[check]} in words`]),
  ];
  const rowOf = (screen: AuditedScreen) => [
    screen.siteId,
    screen.siteName,
    screen.screenId,
    screen.screenName,
    screen.profileId,
    screen.serial,
    screen.firmware,
    String(screen.entries),
    screen.lastEntryAt ?? "",
    screen.asLeftAt ?? "",
    screen.calibratedOn ?? "",
    ...checks.flatMap((name) => {
      const found = screen.checks.find(({ check }) => check === name);
      return [STATE_WORDS[found?.state ?? "unknown"], found?.words ?? ""];
    }),
  ];
  return [header, ...audit.screens.map(rowOf)].map((row) => `${row.map(csvCell).join(",")}\r\n`).join("");
}

/** Characters at which spreadsheets begin a formula; full-width forms count in some. */
const FORMULA = /^[\s\p{Cf}]*[=+\-@\t\r＝＋－＠]/u;

/** One cell, quoted where it must be. */
export function csvCell(text: string): string {
  const safe = harmless(FORMULA.test(text) ? `'${text}` : text);
  return /[",\r\n;\t]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
