import type { FindResult } from "../../logbook/index.ts";
import type { ReportDocument } from "../document.ts";
import { logbookFindingBlocks } from "./logbook-findings.ts";
import { minuteOf, reasonWords } from "./logbook-history.ts";

/** Places of one entry are listed so many times, then counted. */
const SHOWN_PLACES = 4;

/** The entries whose configurations hold a value. */
export function searchReport({ hits, searched, findings }: FindResult, subtitle: string): ReportDocument {
  return {
    title: "Entries that hold a value",
    subtitle,
    blocks: [
      { kind: "paragraph", weight: "lead", text: `${hits.length} of ${searched} entries.` },
      ...(hits.length === 0
        ? []
        : [
            {
              kind: "table" as const,
              caption: "Entries",
              columns: [
                { header: "Screen" },
                { header: "No.", align: "end" as const },
                { header: "Recorded" },
                { header: "Why" },
                { header: "Where and what" },
              ],
              rows: hits.map(({ item: { entry }, places }) => [
                `${entry.siteId}, ${entry.screenId}`,
                String(entry.number),
                minuteOf(entry.recordedAt),
                reasonWords(entry.reason),
                [
                  ...places
                    .slice(0, SHOWN_PLACES)
                    .map((place) => `${place.pointer}: ${JSON.stringify(place.value)}`),
                  ...(places.length > SHOWN_PLACES ? [`and ${places.length - SHOWN_PLACES} more`] : []),
                ].join("; "),
              ]),
            },
          ]),
      ...logbookFindingBlocks("What could not be read or trusted", findings),
    ],
  };
}
