import type { Audit, AuditedScreen } from "../../../model/index.ts";
import type { Block, Cell, ReportDocument } from "../../document.ts";
import { CHECK_WORDS, STATE_WORDS, worstState } from "./words.ts";

/** So many screens are told with all that was found; of more, a line each. */
const MOST_IN_FULL = 12;
/** So many lines at most; the page and the CSV have all. */
const MOST_LINES = 40;

/** An audit for the terminal: the counts, then the screens that need somebody, the worst first. */
export function auditReport(audit: Audit): ReportDocument {
  const open = audit.screens
    .filter(({ checks }) => checks.some(({ state }) => state === "warning" || state === "error"))
    .sort((a, b) => weight(b) - weight(a));
  return {
    title: "Audit",
    subtitle: `${audit.screens.length} screens on ${audit.auditedAt.slice(0, 10)}; ${open.length} need somebody`,
    blocks: [
      countsTable(audit),
      ...(open.length === 0
        ? []
        : ([
            { kind: "heading", level: 2, text: "Screens that need somebody" },
            ...(open.length <= MOST_IN_FULL ? [inFull(open)] : inLines(open)),
          ] as Block[])),
    ],
  };
}

function inFull(open: readonly AuditedScreen[]): Block {
  return {
    kind: "list",
    marker: "dot",
    items: open.map((screen) => {
      const [text = "", ...notes] = openChecks(screen).map(
        ({ check, words }) => `${CHECK_WORDS[check]}: ${words}`,
      );
      const lead = `${screen.siteName}, ${screen.screenName}`;
      return { lead, text, tags: [STATE_WORDS[worst(screen)]], notes };
    }),
  };
}

function inLines(open: readonly AuditedScreen[]): readonly Block[] {
  const more = open.length - MOST_LINES;
  return [
    {
      kind: "table",
      caption: "A line for each, the worst first",
      rowNames: true,
      columns: [{ header: "Site, screen" }, { header: "State" }, { header: "Checks" }],
      rows: open.slice(0, MOST_LINES).map((screen) => [
        `${screen.siteName}, ${screen.screenName}`,
        STATE_WORDS[worst(screen)],
        openChecks(screen)
          .map(({ check }) => CHECK_WORDS[check].toLowerCase())
          .join(", "),
      ]),
    },
    note(
      `${more > 0 ? `${more} more, and what` : "What"} was found on each: in the page (--html), the CSV (--csv), the JSON (--out).`,
    ),
  ];
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
