import type { Severity } from "../../../base/findings/index.ts";
import type { Comparison, ComparisonFinding } from "../../../model/index.ts";
import type { Item, ItemList } from "../../document.ts";

/** "5 findings: 1 to settle first, 3 noticeable, 1 minor." */
export function summary({ findings, counts }: Comparison): string {
  if (findings.length === 0) {
    return counts.changes === 0
      ? "Nothing changed."
      : "Nothing changed that makes a difference worth telling.";
  }
  const parts = [
    ...(counts.error > 0 ? [`${counts.error} to settle first`] : []),
    ...(counts.warning > 0 ? [`${counts.warning} noticeable`] : []),
    ...(counts.advice > 0 ? [`${counts.advice} minor`] : []),
  ];
  return `${findings.length === 1 ? "1 finding" : `${findings.length} findings`}: ${parts.join(", ")}.`;
}

/** How serious a finding is, in words that need no color. */
const URGENCY: Readonly<Record<Severity, string>> = {
  error: "settle first",
  warning: "noticeable",
  advice: "minor",
};

/** Places up to this number stand in the finding's head by name. */
const PLACES_NAMED = 4;

/** What the first of the two documents is called in a sentence. */
export type FirstDocument = "was" | "standard";

export function findingList(findings: readonly ComparisonFinding[], first: FirstDocument = "was"): ItemList {
  return { kind: "list", marker: "number", items: findings.map((finding) => itemOf(finding, first)) };
}

function itemOf(finding: ComparisonFinding, first: FirstDocument): Item {
  const { severity, kind, place, places, words, before, after, remedy } = finding;
  const values = before === undefined || after === undefined ? [] : valueLines(before, after, first);
  const said = before !== undefined && after !== undefined && words.includes(before) && words.includes(after);
  const names = places.map((one) => one.words);
  const where = names.length >= PLACES_NAMED ? [`At ${names.length} places: ${names.join("; ")}.`] : [];
  return {
    lead: place.words,
    tags: [kind, URGENCY[severity]],
    severity,
    text: words,
    notes: [...(said ? [] : values), ...where, ...(remedy === undefined ? [] : [remedy])],
  };
}

/** Values that fit into one line stand beside each other. */
const ONE_LINE = 60;

function valueLines(before: string, after: string, first: FirstDocument): readonly string[] {
  const name = first === "was" ? "Was" : "Standard";
  return before.length + after.length <= ONE_LINE
    ? [`${name}${first === "was" ? "" : ":"} ${before}; is ${after}.`]
    : [`${name}: ${before}.`, `Is: ${after}.`];
}
