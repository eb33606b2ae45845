import type { HistoryItem, ReadBack } from "../../../logbook/entries/index.ts";

/** What is known of an entry, in a few words each; nothing for one of which nothing special is known. */
export function standingWords({ withdrawals, standing }: HistoryItem): readonly string[] {
  const { readBack, uncountedWithdrawals, refusal, recordedApart, isOfAnotherModel } = standing;
  return [
    ...(withdrawals.length > 0 ? ["withdrawn"] : []),
    ...(uncountedWithdrawals.length > 0 ? ["withdrawal not counted"] : []),
    ...(readBack.kind === "none" ? [] : [READ_BACK[readBack.kind]]),
    ...(refusal === undefined ? [] : [REFUSAL[refusal.code] ?? "not to be used"]),
    ...(recordedApart.length > 0 ? ["recorded apart"] : []),
    ...(isOfAnotherModel ? ["another model"] : []),
  ];
}

const READ_BACK: Readonly<Record<Exclude<ReadBack["kind"], "none">, string>> = {
  agrees: "read back",
  differs: "read-back differs",
  ticked: "sheet ticked, not read back",
  unknown: "read-back unknown",
};

const REFUSAL: Readonly<Record<string, string>> = {
  "logbook.unsigned": "not signed by a trusted key",
  "logbook.broken-signature": "signature does not match",
  "logbook.unknown-policy": "signature policy unknown",
  "logbook.number-beyond": "impossible number",
};

/** What came of reading a unit back, as a sentence for a sheet. */
export function readBackWords(readBack: ReadBack): string {
  if (readBack.kind === "none") return "not read back yet";
  const { number, recordedAt, recordedBy } = readBack.entry;
  const by = `entry ${number} of ${recordedAt.slice(0, 10)} by ${recordedBy}`;
  switch (readBack.kind) {
    case "agrees":
      return readBack.withinSteps ? `agrees, within the unit's steps (${by})` : `agrees (${by})`;
    case "differs":
      return `DIFFERS from what was to be loaded in ${readBack.differences} ${readBack.differences === 1 ? "value" : "values"} (${by})`;
    case "ticked": {
      const open = readBack.notChecked.length === 0 ? "" : `; not checked: ${readBack.notChecked.join(", ")}`;
      return `the unit gives no read-back; the entry sheet was ticked by ${readBack.tickedBy} on ${readBack.tickedAt.slice(0, 10)}${open} (entry ${number})`;
    }
    case "unknown":
      return `what came of it is lost (${by})`;
  }
}

/** What to say on a paper while the last read-back differs. */
export function unsettledWords(readBack: ReadBack & { readonly kind: "differs" }): string {
  const { number, recordedAt } = readBack.entry;
  return `The last read-back (entry ${number}, ${recordedAt.slice(0, 10)}) DIFFERS from what was to be loaded in ${readBack.differences} ${readBack.differences === 1 ? "value" : "values"}; no later one agrees.`;
}
