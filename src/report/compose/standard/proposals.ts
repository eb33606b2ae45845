import type { Proposal } from "../../../model/index.ts";
import type { Block, Cell, ReportDocument } from "../../document.ts";

/** How much of proposals is printed. */
export interface ProposalsOptions {
  /** Whether many screens are told site by site. @defaultValue "sites" */
  readonly detail?: "sites" | "screens";
}

/** More screens than these are told site by site on a terminal. */
const MANY_SCREENS = 40;

/** What came of a round of proposals: screen by screen, or site by site where there are many. */
export function proposalsReport(
  proposals: readonly Proposal[],
  standard: { readonly id: string; readonly version: string; readonly title: string },
  { detail = "sites" }: ProposalsOptions = {},
): ReportDocument {
  const count = (outcome: Proposal["outcome"]) => proposals.filter((item) => item.outcome === outcome).length;
  return {
    title: `Proposals for ${standard.title}`,
    subtitle: `${standard.id} ${standard.version}: ${proposals.length === 1 ? "1 screen" : `${proposals.length} screens`}; ${count("proposed")} to load, ${count("follows")} nothing to load, ${count("open")} open`,
    blocks: [
      proposals.length > MANY_SCREENS && detail === "sites" ? siteTable(proposals) : screenTable(proposals),
      ...openBlocks(proposals),
      {
        kind: "paragraph",
        weight: "note",
        text: "Nothing counts as done: load by the work lists, read back, confirm.",
      },
    ],
  };
}

function screenTable(proposals: readonly Proposal[]): Block {
  return {
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
      { header: "Sound changes" },
    ],
    rows: proposals.map(rowOf),
  };
}

function siteTable(proposals: readonly Proposal[]): Block {
  const sites = [...new Set(proposals.map(({ screen }) => screen.siteId))].sort();
  return {
    kind: "table",
    caption: "Sites",
    rowNames: true,
    columns: [
      { header: "Site" },
      ...["Screens", "To load", "Nothing to load", "Open"].map((header) => ({
        header,
        align: "end" as const,
      })),
    ],
    rows: sites.map((site) => {
      const own = proposals.filter(({ screen }) => screen.siteId === site);
      const count = (outcome: Proposal["outcome"]) =>
        String(own.filter((proposal) => proposal.outcome === outcome).length);
      return [site, String(own.length), count("proposed"), count("follows"), count("open")];
    }),
  };
}

/** What is still to be decided, each place once. */
function openBlocks(proposals: readonly Proposal[]): readonly Block[] {
  const open = new Map<string, { readonly what: string; screens: number }>();
  for (const { steps, questions } of proposals) {
    const asked = [
      ...steps
        .filter(({ outcome }) => outcome === "asks")
        .map(({ place, words, label }) => ({ place, what: `${words}, ${label}` })),
      ...questions
        .filter(({ chosen }) => chosen === null)
        .map(({ place, question, unfit }) => ({ place, what: unfit ?? question })),
    ];
    for (const { place, what } of asked) {
      const known = open.get(place) ?? { what, screens: 0 };
      known.screens += 1;
      open.set(place, known);
    }
  }
  if (open.size === 0) return [];
  return [
    { kind: "heading", level: 2, text: "To be decided" },
    {
      kind: "list",
      marker: "dot",
      items: [...open].map(([place, { what, screens }]) => ({
        lead: place,
        text: what,
        tags: [screens === 1 ? "1 screen" : `${screens} screens`],
      })),
    },
  ];
}

const OUTCOME: Readonly<Record<Proposal["outcome"], string>> = {
  follows: "nothing to load",
  proposed: "to load",
  open: "open",
};

function rowOf({ screen, outcome, steps, questions, sound }: Proposal): readonly Cell[] {
  const count = (...outcomes: readonly string[]) =>
    String(steps.filter((step) => outcomes.includes(step.outcome)).length);
  return [
    `${screen.siteId}/${screen.screenId}`,
    OUTCOME[outcome],
    count("taken", "rounded", "nearest"),
    count("kept", "kept-by-decision"),
    String(
      steps.filter((step) => step.outcome === "asks").length +
        questions.filter(({ chosen }) => chosen === null).length,
    ),
    count("by-hand"),
    sound === null
      ? ""
      : sound.verdict === "equal"
        ? "as before"
        : `${sound.paths - sound.equal} of ${sound.paths} paths`,
  ];
}
