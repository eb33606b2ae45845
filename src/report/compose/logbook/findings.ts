import { type Finding, SEVERITIES, type Severity } from "../../../base/findings/index.ts";
import type { Block } from "../../document.ts";

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  error: "cannot be trusted",
  warning: "look at it",
  advice: "note",
};

/** Findings of one code are shown so many times, then counted. */
const SHOWN_OF_A_KIND = 8;

/** What reading or checking a logbook found, most serious first; nothing when it found nothing. */
export function logbookFindingBlocks(title: string, findings: readonly Finding[]): readonly Block[] {
  if (findings.length === 0) return [];
  const byCode = new Map<string, Finding[]>();
  for (const finding of findings) byCode.set(finding.code, [...(byCode.get(finding.code) ?? []), finding]);
  const groups = [...byCode.values()].sort(
    ([a], [b]) => SEVERITIES.indexOf(a!.severity) - SEVERITIES.indexOf(b!.severity),
  );
  return [
    { kind: "heading", level: 2, text: title },
    ...groups.flatMap((group): readonly Block[] => {
      const [{ severity, remedy }] = group as [Finding];
      const more = group.length - SHOWN_OF_A_KIND;
      return [
        {
          kind: "list",
          marker: "dot",
          items: group.slice(0, SHOWN_OF_A_KIND).map(({ words, place }) => ({
            text: words.includes(place.words) ? words : `${words} (${place.words})`,
            tags: [SEVERITY_WORDS[severity]],
            severity,
          })),
        },
        ...(more > 0 ? [note(`${more} more of this kind; the JSON lists them all.`)] : []),
        ...(remedy === undefined ? [] : [note(remedy)]),
      ];
    }),
  ];
}

function note(text: string): Block {
  return { kind: "paragraph", weight: "note", text };
}
