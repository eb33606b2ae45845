import type { HistoryItem } from "../../../logbook/entries/index.ts";
import type { PaperJudgement, PaperVerdict } from "../../../logbook/imprint/index.ts";
import { groupedDigits } from "../../../words/index.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { minuteOf, reasonWords } from "./history.ts";

const VERDICT_WORDS: Readonly<Record<PaperVerdict, string>> = {
  agrees: "Paper and entry agree.",
  contradicts:
    "Paper and entry do NOT agree: the entry that the paper names holds other settings. Do not work by this paper; print it anew from the logbook.",
  "other-entries":
    "The paper's entry is not here, but these settings are: the logbook they were printed from was another one.",
  unknown: "Nothing recorded of this screen holds the settings of the paper. Do not work by it.",
};

/** Whether a paper shows what a logbook holds, and whether something was recorded since. */
export function paperMatchReport(judgement: PaperJudgement): ReportDocument {
  const { verdict, imprint, item, same, laterChanged } = judgement;
  const from = imprint.entry === undefined ? "printed from a file" : `entry ${imprint.entry.number}`;
  return {
    title: "Paper against logbook",
    subtitle: `${imprint.siteId}, ${imprint.screenId}, ${from}`,
    blocks: [
      { kind: "paragraph", weight: "lead", text: VERDICT_WORDS[verdict] },
      ...(item === undefined ? [] : [laterBlock(laterChanged)]),
      ...withdrawn(item),
      {
        kind: "facts",
        pairs: [
          ["Settings on paper", groupedDigits(imprint.settingsSha256)],
          ...(item === undefined
            ? []
            : ([
                ["Settings of entry", groupedDigits(item.entry.configuration)],
                ["Entry", entryWords(item)],
                ["Entry id", groupedDigits(item.id)],
              ] as const)),
          ...(same.length > 1
            ? ([["Same settings in", same.map(({ entry }) => `entry ${entry.number}`).join(", ")]] as const)
            : []),
        ],
      },
    ],
  };
}

function laterBlock(laterChanged: readonly HistoryItem[]): Block {
  if (laterChanged.length === 0) {
    return { kind: "paragraph", text: "Nothing with other settings was recorded of this screen since." };
  }
  return {
    kind: "list",
    marker: "dot",
    items: [
      {
        lead: "Out of date",
        text: "other settings were recorded since. Print a new sheet before you work by this one.",
        tags: ["look twice"],
        severity: "warning",
        notes: laterChanged.map(entryWords),
      },
    ],
  };
}

function withdrawn(item: HistoryItem | undefined): readonly Block[] {
  return (item?.withdrawals ?? []).map(({ reason, recordedAt, recordedBy }) => ({
    kind: "caution",
    title: "Withdrawn: not to be used any more",
    items: [reason, `${recordedAt} by ${recordedBy}`],
  }));
}

function entryWords({ entry }: HistoryItem): string {
  return `entry ${entry.number}, ${reasonWords(entry.reason)}, ${minuteOf(entry.recordedAt)} by ${entry.recordedBy}`;
}
