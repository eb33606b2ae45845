import type { Proposal } from "../../model/index.ts";
import type { Cell, ReportDocument } from "../document.ts";

/** What came of a round of proposals, screen by screen. */
export function proposalsReport(
  proposals: readonly Proposal[],
  standard: { readonly id: string; readonly version: string; readonly title: string },
): ReportDocument {
  const count = (outcome: Proposal["outcome"]) => proposals.filter((item) => item.outcome === outcome).length;
  return {
    title: `Proposals for ${standard.title}`,
    subtitle: `${standard.id} ${standard.version}: ${proposals.length} screens; ${count("proposed")} to load, ${count("follows")} nothing to load, ${count("open")} open, ${count("refused")} refused`,
    blocks: [
      {
        kind: "table",
        caption: "Screens",
        rowNames: true,
        columns: [
          { header: "Screen" },
          { header: "Outcome" },
          { header: "Taken", align: "end" },
          { header: "Stays", align: "end" },
          { header: "Asks", align: "end" },
          { header: "By hand", align: "end" },
          { header: "Sound" },
        ],
        rows: proposals.map(rowOf),
      },
      ...proposals
        .filter(({ outcome }) => outcome === "refused")
        .map(({ screen, findings }) => ({
          kind: "list" as const,
          marker: "dot" as const,
          items: findings.map(({ place, words, severity }) => ({
            lead: `${screen.siteName}, ${screen.screenName}: ${place}`,
            text: words,
            severity,
          })),
        })),
      {
        kind: "paragraph",
        weight: "note",
        text: "Nothing counts as done: load by the work lists, read back, confirm.",
      },
    ],
  };
}

const OUTCOME: Readonly<Record<Proposal["outcome"], string>> = {
  follows: "nothing to load",
  proposed: "to load",
  open: "open",
  refused: "refused",
};

function rowOf({ screen, outcome, steps, sound }: Proposal): readonly Cell[] {
  const count = (...outcomes: readonly string[]) =>
    String(steps.filter((step) => outcomes.includes(step.outcome)).length);
  return [
    `${screen.siteId}/${screen.screenId}`,
    OUTCOME[outcome],
    count("taken", "rounded", "nearest"),
    count("kept", "kept-by-decision"),
    count("asks"),
    count("by-hand"),
    sound === null
      ? ""
      : sound.verdict === "equal"
        ? "as before"
        : `${sound.paths - sound.equal} of ${sound.paths} paths`,
  ];
}
