import { type Finding, type FindingKind, SEVERITIES, type Severity } from "../../base/findings/index.ts";
import type { CheckedScreen } from "../../rules/index.ts";
import type { Block, Item, ReportDocument } from "../document.ts";

const KIND_WORDS: Readonly<Record<FindingKind, string>> = {
  protection: "protection",
  sound: "sound",
  routing: "routing",
  operation: "operation",
  record: "papers",
};

/** What a check of one or more screens found, screen by screen, most serious first. */
export function validationReport(screens: readonly CheckedScreen[]): ReportDocument {
  return {
    title: "Check by the rule book",
    subtitle: summary(screens),
    blocks: [...screens.filter(hasSomethingToSay).flatMap(screenBlocks), ...silentBlocks(screens)],
  };
}

function hasSomethingToSay({ findings, acknowledged, notes, withProfile, title }: CheckedScreen): boolean {
  return findings.length + acknowledged.length + notes.length > 0 || (title !== undefined && !withProfile);
}

/** So many documents in which nothing was found are named one by one. */
const MOST_NAMED = 20;

function silentBlocks(screens: readonly CheckedScreen[]): readonly Block[] {
  const silent = screens.filter((screen) => !hasSomethingToSay(screen));
  if (silent.length === 0) return [];
  const named = silent.slice(0, MOST_NAMED);
  const items = named.map(({ name, title }) =>
    title === undefined ? { text: name } : { lead: title, text: name },
  );
  const more = silent.length - named.length;
  return [
    { kind: "heading", level: 2, text: "Nothing found in" },
    itemList(more === 0 ? items : [...items, { text: `${more} more documents` }]),
  ];
}

function summary(screens: readonly CheckedScreen[]): string {
  if (screens.length === 0) return "No document was checked.";
  const documents = screens.length === 1 ? "1 document" : `${screens.length} documents`;
  return `${documents}: ${countWords(screens)}`;
}

function countWords(screens: readonly CheckedScreen[]): string {
  const findings = screens.flatMap((screen) => screen.findings);
  const acknowledged = screens.flatMap((screen) => screen.acknowledged).length;
  const also = acknowledged === 0 ? "" : `, ${acknowledged} acknowledged`;
  const parts = SEVERITIES.flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [`${count} ${severityWords(severity, count)}`];
  });
  if (parts.length === 0) return also === "" ? "nothing found" : `nothing open${also}`;
  return parts.join(", ") + also;
}

function severityWords(severity: Severity, count: number): string {
  if (severity === "advice") return count === 1 ? "piece of advice" : "pieces of advice";
  return count === 1 ? severity : `${severity}s`;
}

function screenBlocks(screen: CheckedScreen): readonly Block[] {
  const { name, title, findings, acknowledged, notes, withProfile, unlisted } = screen;
  const remarks = [
    ...(withProfile || title === undefined
      ? []
      : ["The unit's profile was not at hand: what the unit can do was not checked."]),
    ...(unlisted === 0 ? [] : [`${unlisted} more are not listed.`]),
    ...notes.map((note) => note.words),
  ];
  return [
    { kind: "heading", level: 2, text: title === undefined ? name : title },
    { kind: "paragraph", text: `${title === undefined ? "" : `${name}: `}${countWords([screen])}.` },
    ...(findings.length === 0 ? [] : [itemList(findings.map(ruleFindingItem))]),
    ...(acknowledged.length === 0
      ? []
      : [
          { kind: "heading", level: 3, text: "Acknowledged" } as const,
          itemList(acknowledged.map(({ finding }) => ruleFindingItem(finding))),
        ]),
    ...remarks.map((text) => ({ kind: "paragraph", text, weight: "note" }) as const),
  ];
}

function itemList(items: readonly Item[]): Block {
  return { kind: "list", marker: "dot", items };
}

/** A finding of the rule book as an item of a list. */
export function ruleFindingItem(finding: Finding): Item {
  const { place, words, severity, kind, remedy, source, code } = finding;
  return {
    lead: place.words,
    text: words,
    severity,
    tags: [severity, KIND_WORDS[kind]],
    notes: [
      ...(remedy === undefined ? [] : [`To do: ${remedy}`]),
      ...(source === undefined ? [] : [`Source: ${source}`]),
      `${code}${place.pointer === "" || place.pointer === place.words ? "" : ` at ${place.pointer}`}`,
    ],
  };
}
