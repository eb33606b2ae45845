import type { History, HistoryItem } from "../../../logbook/entries/index.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { logbookFindingBlocks } from "./findings.ts";
import { standingWords } from "./standing-words.ts";

/** Digits of an id that a list shows: enough to name an entry by. */
const SHOWN_DIGITS = 8;

/** The entries of a logbook, screen by screen, as a person looks through them. */
export function historyReport(
  { items, findings }: Pick<History, "items" | "findings">,
  subtitle: string,
): ReportDocument {
  const screens = new Map<string, HistoryItem[]>();
  for (const item of items) {
    const name = `${item.entry.siteId}, ${item.entry.screenId}`;
    screens.set(name, [...(screens.get(name) ?? []), item]);
  }
  return {
    title: "Entries of the logbook",
    subtitle,
    blocks: [
      ...(items.length === 0
        ? [{ kind: "paragraph" as const, text: "No entry is there, or none that fits what was asked for." }]
        : []),
      ...[...screens].map(([name, own]) => screenTable(name, own)),
      ...[...screens].flatMap(([name, own]) => apartNote(name, own)),
      ...logbookFindingBlocks("What could not be read or trusted", findings),
    ],
  };
}

function screenTable(caption: string, items: readonly HistoryItem[]): Block {
  return {
    kind: "table",
    caption,
    columns: [
      { header: "No.", align: "end" },
      { header: "Recorded" },
      { header: "Why" },
      { header: "Unit" },
      { header: "By" },
      { header: "Id" },
    ],
    rows: items.map((item) => {
      const { id, entry } = item;
      const known = standingWords(item).join(", ");
      return [
        String(entry.number),
        minuteOf(entry.recordedAt),
        known === "" ? reasonWords(entry.reason) : `${reasonWords(entry.reason)} (${known})`,
        entry.unit.serial,
        entry.recordedBy,
        id.slice(0, SHOWN_DIGITS),
      ];
    }),
  };
}

function apartNote(name: string, items: readonly HistoryItem[]): readonly Block[] {
  const latest = items.filter((item) => item.isLatest).length;
  if (latest < 2) return [];
  return [
    {
      kind: "paragraph",
      weight: "note",
      text: `${name} has ${latest} last entries: either it was recorded in two places apart, or an entry between them is missing. All of it is kept; the next entry follows the last one of each.`,
    },
  ];
}

/** "as-left" as people write it. */
export function reasonWords(reason: string): string {
  return reason.replaceAll("-", " ");
}

/** Date and time to the minute, as the writer's clock showed it. */
export function minuteOf(dateTime: string): string {
  return dateTime.slice(0, 16).replace("T", " ");
}
