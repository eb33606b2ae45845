import type { AuditChange, AuditComparison } from "../../audit/index.ts";
import type { Block, ReportDocument } from "../document.ts";
import { CHECK_WORDS, STATE_WORDS } from "./words.ts";

/** What became of the screens since the audit before. */
export function auditComparisonReport(comparison: AuditComparison): ReportDocument {
  const { from, to, better, worse, otherwise, newScreens, goneScreens } = comparison;
  return {
    title: "Since the audit before",
    subtitle: `${from.slice(0, 10)} to ${to.slice(0, 10)}: ${worse.length} worse, ${better.length} better`,
    blocks: [
      ...part("Worse", worse),
      ...part("Better", better),
      ...part("Otherwise", otherwise),
      ...names("New screens", newScreens),
      ...names("Screens that are not there any more", goneScreens),
    ],
  };
}

function part(title: string, changes: readonly AuditChange[]): readonly Block[] {
  if (changes.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: title },
    {
      kind: "list",
      marker: "dot",
      items: changes.map(({ siteId, screenId, check, before, after, words }) => ({
        lead: `${siteId}/${screenId}, ${CHECK_WORDS[check].toLowerCase()}`,
        text: `was "${STATE_WORDS[before]}", is "${STATE_WORDS[after]}".`,
        notes: [words],
      })),
    },
  ];
}

function names(title: string, list: readonly string[]): readonly Block[] {
  if (list.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: title },
    { kind: "paragraph", text: `${list.join(", ")}.` },
  ];
}
