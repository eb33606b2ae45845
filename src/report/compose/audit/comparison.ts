import type { AuditChange, AuditComparison } from "../../../fleet/audit/index.ts";
import { firstOf } from "../../../words/index.ts";
import type { Block, Item, ReportDocument } from "../../document.ts";
import { CHECK_WORDS, STATE_WORDS } from "./words.ts";

/** What became of the screens since the audit before: screens that went the same way are told together. */
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

/** So many screens of one group are told with what was found, or by name; the JSON has all. */
export const MOST_IN_FULL = 3;
const MOST_NAMED = 12;

function part(title: string, changes: readonly AuditChange[]): readonly Block[] {
  if (changes.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: title },
    { kind: "list", marker: "dot", items: grouped(changes).flatMap(itemsOf) },
  ];
}

/** Changes of the same check from the same state to the same one, together. */
export function grouped(changes: readonly AuditChange[]): readonly (readonly AuditChange[])[] {
  const groups = new Map<string, AuditChange[]>();
  for (const change of changes) {
    const key = `${change.check} ${change.before} ${change.after}`;
    groups.set(key, [...(groups.get(key) ?? []), change]);
  }
  return [...groups.values()];
}

function itemsOf(group: readonly AuditChange[]): readonly Item[] {
  const [first] = group;
  if (first === undefined) return [];
  const { check, before, after } = first;
  const states = `was "${STATE_WORDS[before]}", is "${STATE_WORDS[after]}".`;
  if (group.length <= MOST_IN_FULL) {
    return group.map((change) => ({
      lead: `${nameOf(change)}, ${CHECK_WORDS[check].toLowerCase()}`,
      text: states,
      notes: [change.words],
    }));
  }
  return [
    {
      lead: `${CHECK_WORDS[check]}, ${group.length} screens`,
      text: states,
      notes: [`${firstOf(group.map(nameOf), MOST_NAMED)}.`],
    },
  ];
}

/** "hall/screen-1" */
export function nameOf({ siteId, screenId }: AuditChange): string {
  return `${siteId}/${screenId}`;
}

function names(title: string, list: readonly string[]): readonly Block[] {
  if (list.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: title },
    { kind: "paragraph", text: `${firstOf(list, MOST_NAMED)}.` },
  ];
}
