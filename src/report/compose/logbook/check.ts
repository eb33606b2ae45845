import type { HealReport, VerifyReport } from "../../../logbook/entries/index.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { logbookFindingBlocks } from "./findings.ts";

/** What checking a logbook gave: what can be trusted, what cannot, and how to heal it. */
export function logbookCheckReport(
  check: VerifyReport,
  healed: HealReport | undefined,
  subtitle: string,
): ReportDocument {
  return {
    title: "Check of the logbook",
    subtitle,
    blocks: [
      { kind: "paragraph", weight: "lead", text: verdict(check) },
      facts(check),
      ...(healed === undefined
        ? []
        : [{ kind: "heading" as const, level: 2 as const, text: "Healed" }, healFacts(healed)]),
      ...lostTable(check),
      ...logbookFindingBlocks("Found", check.findings),
    ],
  };
}

function verdict({ findings, share, depth, entries, files }: VerifyReport): string {
  const faults = findings.filter((finding) => finding.severity === "error").length;
  const what =
    share < 1 ? "What was looked at" : depth === "files" ? "Every file" : "Every file and every entry";
  if (faults === 0) return `${what} can be trusted.`;
  return depth === "files"
    ? `Not everything can be trusted. Faults: ${faults}; damaged files: ${files.damaged} of ${files.checked}.`
    : `Not everything can be trusted. Faults: ${faults}; entries that can still be trusted: ${entries.trusted.length}.`;
}

function facts({ depth, share, files, entries }: VerifyReport): Block {
  return {
    kind: "facts",
    pairs: [
      [
        "Looked at",
        `${depth === "files" ? "files only" : "files, configurations, links, signatures"}${share < 1 ? `, a sample of ${Math.round(share * 100)} %` : ""}`,
      ],
      ["Files", `${files.checked} of ${files.listed}, ${files.damaged} damaged`],
      [
        "Entries",
        depth === "files"
          ? `${entries.listed} listed`
          : `${entries.trusted.length + entries.lost.length} of ${entries.listed}, ${entries.lost.length} lost`,
      ],
    ],
  };
}

function healFacts(healed: HealReport): Block {
  return {
    kind: "facts",
    pairs: [
      ["Files brought over", String(healed.filesRestored.length)],
      ["Entries merged in", String(healed.entriesAdded)],
      ["Records taken in", String(healed.straysTakenIn.length)],
      ["Files set aside", String(healed.filesSetAside.length)],
      ["Marks set", String(healed.marksSet)],
    ],
  };
}

function lostTable({ entries: { lost } }: VerifyReport): readonly Block[] {
  if (lost.length === 0) return [];
  return [
    {
      kind: "table",
      caption: "Entries whose configuration cannot be put together",
      columns: [{ header: "Site" }, { header: "Screen" }, { header: "No.", align: "end" }, { header: "Id" }],
      rows: lost.map(({ siteId, screenId, number, id }) => [
        siteId,
        screenId,
        String(number),
        id.slice(0, 12),
      ]),
    },
  ];
}
