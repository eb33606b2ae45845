import type { Audit, AuditedScreen } from "../../model/index.ts";
import type { Block, Cell, ReportDocument } from "../document.ts";
import { CHECK_WORDS, STATE_WORDS, worstState } from "./words.ts";

/** So many screens are told one by one; the page and the CSV have all. */
const MOST_TOLD = 40;

/** An audit for the terminal: the counts, then the screens that need somebody, the worst first. */
export function auditReport(audit: Audit): ReportDocument {
  const open = audit.screens
    .filter(({ checks }) => checks.some(({ state }) => state === "warning" || state === "error"))
    .sort((a, b) => weight(b) - weight(a));
  const more = open.length - MOST_TOLD;
  return {
    title: "Audit",
    subtitle: `${audit.screens.length} screens on ${audit.auditedAt.slice(0, 10)}; ${open.length} need somebody`,
    blocks: [
      countsTable(audit),
      ...(open.length === 0
        ? []
        : ([
            { kind: "heading", level: 2, text: "Screens that need somebody" },
            {
              kind: "list",
              marker: "dot",
              items: open.slice(0, MOST_TOLD).map((screen) => ({
                lead: `${screen.siteName}, ${screen.screenName}`,
                text: openChecks(screen)
                  .map(({ check }) => CHECK_WORDS[check].toLowerCase())
                  .join(", "),
                tags: [STATE_WORDS[worst(screen)]],
                notes: openChecks(screen).map(({ check, words }) => `${CHECK_WORDS[check]}: ${words}`),
              })),
            },
          ] as Block[])),
      ...(more > 0 ? [note(`${more} more are in the JSON, the CSV and the page.`)] : []),
    ],
  };
}

function openChecks({ checks }: AuditedScreen) {
  return checks.filter(({ state }) => state === "warning" || state === "error");
}

function worst({ checks }: AuditedScreen) {
  return worstState(checks.map(({ state }) => state));
}

function weight(screen: AuditedScreen): number {
  return openChecks(screen).reduce((sum, { state }) => sum + (state === "error" ? 100 : 1), 0);
}

/** How many screens stand how, check by check. */
function countsTable({ counts }: Audit): Block {
  const states = ["good", "advice", "warning", "error", "unknown", "none"] as const;
  return {
    kind: "table",
    caption: "Screens by check",
    rowNames: true,
    columns: [
      { header: "Check" },
      ...states.map((state) => ({ header: STATE_WORDS[state], align: "end" as const })),
    ],
    rows: counts.map((count): readonly Cell[] => [
      CHECK_WORDS[count.check],
      ...states.map((state) => (count[state] === 0 ? "" : String(count[state]))),
    ]),
  };
}

function note(text: string): Block {
  return { kind: "paragraph", weight: "note", text };
}
