import type { FindHit, FindResult } from "../../../logbook/entries/index.ts";
import type { Item, ReportDocument } from "../../document.ts";
import { logbookFindingBlocks } from "./findings.ts";
import { minuteOf, reasonWords } from "./history.ts";
import { standingWords } from "./standing-words.ts";

/** Places of one entry are listed so many times, then counted. */
const SHOWN_PLACES = 4;

/** The entries whose configurations hold a value. */
export function searchReport(
  { hits, searched, findings }: Pick<FindResult, "hits" | "searched" | "findings">,
  subtitle: string,
): ReportDocument {
  return {
    title: "Entries that hold a value",
    subtitle,
    blocks: [
      { kind: "paragraph", weight: "lead", text: `${hits.length} of ${searched} entries.` },
      ...(hits.length === 0
        ? []
        : [{ kind: "list" as const, marker: "dot" as const, items: hits.map(hitItem) }]),
      ...logbookFindingBlocks("What could not be read or trusted", findings),
    ],
  };
}

function hitItem({ item, places }: FindHit): Item {
  const { entry } = item;
  const known = standingWords(item)
    .map((words) => `, ${words}`)
    .join("");
  const more = places.length - SHOWN_PLACES;
  return {
    lead: `${entry.siteId}, ${entry.screenId}, entry ${entry.number}`,
    text: `${minuteOf(entry.recordedAt)}, ${reasonWords(entry.reason)}, ${entry.unit.serial}${known}`,
    notes: [
      ...places.slice(0, SHOWN_PLACES).map((place) => `${place.pointer}: ${JSON.stringify(place.value)}`),
      ...(more > 0 ? [`and ${more} more`] : []),
    ],
  };
}
