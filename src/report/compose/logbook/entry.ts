import type { Finding } from "../../../base/findings/index.ts";
import { linesOf } from "../../../base/text/index.ts";
import type { HistoryItem } from "../../../logbook/entries/index.ts";
import type { SignatureVerdict } from "../../../logbook/signing/index.ts";
import { groupedDigits } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, ReportDocument } from "../../document.ts";
import { logbookFindingBlocks } from "./findings.ts";
import { reasonWords } from "./history.ts";
import { readBackWords, unsettledWords } from "./standing-words.ts";

/** An entry with what is known of its signatures and files. */
export interface EntryReportInput {
  readonly item: HistoryItem;
  /** What its signatures are worth, one verdict for each. */
  readonly verdicts: readonly SignatureVerdict[];
  /** Whether its configuration can be put together. */
  readonly isWhole: boolean;
  readonly findings: readonly Finding[];
}

/** One entry with its circumstances and what was said about it later. */
export function entryReport({ item, verdicts, isWhole, findings }: EntryReportInput): ReportDocument {
  const { entry } = item;
  return {
    title: `Entry ${entry.number}, ${reasonWords(entry.reason)}`,
    subtitle: `${entry.siteId}, ${entry.screenId}`,
    blocks: [
      ...withdrawalBlocks(item),
      ...refusalBlocks(item),
      ...(isWhole ? [] : [lostBlock()]),
      facts(item, verdicts),
      ...linesOf(entry.notes ?? "").map((text) => ({ kind: "paragraph" as const, text })),
      ...logbookFindingBlocks("What could not be read or trusted among this screen's records", findings),
      cautionBlock(),
    ],
  };
}

function facts({ id, entry, isLatest, standing }: HistoryItem, verdicts: readonly SignatureVerdict[]): Block {
  const attachments = entry.attachments ?? [];
  return {
    kind: "facts",
    pairs: [
      ["Entry id", groupedDigits(id)],
      ["Recorded", `${entry.recordedAt} by ${entry.recordedBy}`],
      ["Unit", `${entry.unit.profileId}, serial number ${entry.unit.serial}`],
      [
        "Follows",
        entry.previous.map((previous) => previous.slice(0, 12)).join(", ") || "none: the first entry",
      ],
      ["Followed by another", isLatest ? "no" : "yes"],
      ...(standing.recordedApart.length > 0
        ? [["Recorded apart from", standing.recordedApart.map(nameOfApart).join("; ")] as const]
        : []),
      ["Read back", readBackWords(standing.readBack)],
      ...(standing.isOfAnotherModel ? [["Unit since", "another model was recorded after it"] as const] : []),
      ["Configuration", groupedDigits(entry.configuration)],
      ...attachments.map(({ name, sizeBytes }) => ["Attached", `${name}, ${sizeBytes} bytes`] as const),
      ...(verdicts.length === 0 ? [["Signed", "no"] as const] : verdicts.map(verdictFact)),
    ],
  };
}

function verdictFact(verdict: SignatureVerdict): readonly [string, string] {
  return ["Signed", verdictWords(verdict)];
}

/** What a signature is worth, in words. */
export function verdictWords(verdict: SignatureVerdict | { readonly kind: "unsigned" }): string {
  switch (verdict.kind) {
    case "trusted":
      return `by ${verdict.name}`;
    case "unknown-key":
      return `with a key that nobody listed as trusted (${verdict.fingerprint.slice(0, 16)})`;
    case "retired-key":
      return verdict.stolen
        ? `with the key of ${verdict.name}, which was stolen: it proves nothing`
        : `with the key of ${verdict.name}, which was retired from ${verdict.from} on`;
    case "broken":
      return "the signature does NOT hold";
    case "unsigned":
      return "no";
  }
}

function withdrawalBlocks({ withdrawals }: HistoryItem): readonly Block[] {
  return withdrawals.map(({ reason, recordedAt, recordedBy }) => ({
    kind: "caution",
    title: "Withdrawn: not to be used any more",
    items: [reason, `${recordedAt} by ${recordedBy}`],
  }));
}

/** Why nothing may be loaded from it, and withdrawals that do not count. */
function refusalBlocks({
  standing: { refusal, uncountedWithdrawals, readBack },
}: HistoryItem): readonly Block[] {
  return [
    ...(refusal === undefined
      ? []
      : [{ kind: "caution" as const, title: "Not to be loaded", items: [refusal.words, refusal.next] }]),
    ...(readBack.kind === "differs"
      ? [{ kind: "caution" as const, title: "Read-back differs", items: [unsettledWords(readBack)] }]
      : []),
    ...uncountedWithdrawals.map(({ withdrawal: { reason, recordedAt, recordedBy }, signature }) => ({
      kind: "caution" as const,
      title: "A withdrawal that does not count",
      items: [
        `${recordedAt} by ${recordedBy}: ${reason}`,
        signature === "none"
          ? "It is not signed, and the policy asks for that."
          : "No trusted key signed it, and the policy asks for that.",
      ],
    })),
  ];
}

function nameOfApart({ number, recordedAt, id }: HistoryItem["standing"]["recordedApart"][number]): string {
  return `entry ${number} of ${recordedAt.slice(0, 10)} (${id.slice(0, 8)})`;
}

function lostBlock(): Block {
  return {
    kind: "paragraph",
    weight: "lead",
    text: "The configuration of this entry cannot be put together: something it rests on is missing or damaged. Heal the logbook from another copy.",
  };
}
