import type { Sha256 } from "../../base/canonical/index.ts";
import type { Finding } from "../../base/findings/index.ts";
import type { Entry, EntrySignature } from "../../model/index.ts";
import {
  BOUND,
  ENTRIES,
  type EntryRecords,
  logbookFinding,
  markStem,
  numberedBeyond,
  readBoundMark,
  readScreen,
  type ScreenPlace,
  type ScreenRecords,
  screenEntries,
  withStore,
} from "../medium/index.ts";
import type { StandingGround } from "./ground.ts";
import { type OwnReadBack, ownReadBack, unsettledReadBack } from "./read-back.ts";
import { judgeSignatures, policyRefusal, signatureStanding } from "./signatures.ts";
import {
  type HistoryItem,
  nameOf,
  type ReadBack,
  type Refusal,
  type Standing,
  type Unseen,
  type UnseenRecord,
} from "./standing.ts";

/** A screen with all that is known of its entries. */
export interface JudgedScreen {
  readonly place: ScreenPlace;
  /** In the order of their numbers. */
  readonly items: readonly HistoryItem[];
  /** What the register or a record names and that is not here, or damaged. */
  readonly unseen: Unseen;
  /** The last read-back that differs, until a later one agrees. */
  readonly unsettled: (ReadBack & { readonly kind: "differs" }) | undefined;
  /** What could not be read or trusted among the screen's records; what the policy lacks is said there. */
  readonly findings: readonly Finding[];
  /** As they are kept: for {@link checkEntry}. */
  readonly records: ScreenRecords;
}

/** Reads a screen and judges every record of it. */
export function judgeScreen(ground: StandingGround, place: ScreenPlace): JudgedScreen {
  const { logbook, register } = ground;
  return withStore(logbook.store, "", () => {
    // Marks before files: whoever writes marks a file after it is there.
    const recordMarks = register.recordMarks(place);
    const boundMarks = register.boundMarks(place.site);
    const records = readScreen(logbook.store, place);
    const unseen = findUnseen(ground, place, records, { recordMarks, boundMarks });
    return judge(ground, place, records, unseen);
  });
}

interface Marks {
  readonly recordMarks: readonly string[];
  readonly boundMarks: readonly string[];
}

interface FoundUnseen extends Unseen {
  readonly findings: readonly Finding[];
}

function findUnseen(
  { logbook, register }: StandingGround,
  { site, screen }: ScreenPlace,
  records: ScreenRecords,
  { recordMarks, boundMarks }: Marks,
): FoundUnseen {
  const { lines, damaged, missing, lostInBound, sealed, boundDigests } = records;
  const findings: Finding[] = [];
  const gone = new Set<string>();
  for (const id of recordMarks) {
    if (lines.has(id) || damaged.has(id)) continue;
    if (!register.isStillMarked(`${ENTRIES}/${site}`, `${screen}.${id}`)) continue;
    gone.add(id);
    findings.push(logbookFinding("logbook/missing-file", `${ENTRIES}/${site}/${screen}/${id}`));
  }
  const boundFiles: string[] = [];
  const isHere = (start: string) =>
    lines.has(start) || [...lines.keys(), ...damaged].some((id) => id.startsWith(start));
  const lostOf = (name: string) =>
    readBoundMark(logbook.store, name)
      ?.filter((record) => record.screen === screen && !isHere(record.id))
      .map(({ id }) => id);
  for (const path of sealed) {
    const lost = lostOf(boundMarkOf(path));
    if (lost === undefined) boundFiles.push(path);
    for (const id of lost ?? []) gone.add(id);
  }
  for (const digest of boundMarks) {
    const name = `${site}.${digest}`;
    if (boundDigests.has(digest) || !register.isStillMarked(BOUND, name)) continue;
    const lost = lostOf(name);
    if (lost === undefined) boundFiles.push(`${BOUND}/${name}`);
    if (lost?.length !== 0) findings.push(logbookFinding("logbook/missing-file", `${BOUND}/${name}`));
    for (const id of lost ?? []) gone.add(id);
  }
  for (const id of missing) gone.add(id);
  const lostRecords: UnseenRecord[] = [
    ...[...damaged].map((id) => ({ id, isDamaged: true })),
    ...lostInBound
      .filter((start) => ![...gone].some((id) => id.startsWith(start)))
      .map((id) => ({ id, isDamaged: true })),
    ...[...gone].map((id) => ({ id, isDamaged: false })),
  ];
  return { records: lostRecords, boundFiles, findings };
}

/** "bound/SITE.DIGEST.gz" is marked as "SITE.DIGEST". */
function boundMarkOf(path: string): string {
  return markStem(BOUND, path.slice(BOUND.length + 1));
}

function judge(
  ground: StandingGround,
  place: ScreenPlace,
  records: ScreenRecords,
  { findings: notHere, ...unseen }: FoundUnseen,
): JudgedScreen {
  const entries = screenEntries(records);
  const beyond = numberedBeyond(records.entries);
  const findings: Finding[] = [...records.findings, ...notHere];
  const signatures = [...records.signatures.values()];
  const withdrawals = entries.map((item) => judgeWithdrawals(item, signatures, ground, findings));
  const owns = entries.map((item) => ownReadBack(item, ground.parts));
  const counted = entries.map((item, index) => ({ entry: item.entry, own: owns[index] }));
  const unsettled = unsettledReadBack(counted);
  // One that was withdrawn, or that nothing may be built on, contradicts nobody.
  const latest = entries
    .filter(
      ({ id, isLatest }, index) => isLatest && !beyond.has(id) && withdrawals[index]!.counted.length === 0,
    )
    .map(nameOf);
  const inRack = entries.findLast(
    ({ id }, index) => !beyond.has(id) && withdrawals[index]!.counted.length === 0,
  );
  const about = readBacksById(entries, owns);
  const items = entries.map((item, index): HistoryItem => {
    const { id, entry, isLatest } = item;
    const verdicts = judgeSignatures(entry, item.signatures, ground.policy.trustedKeys);
    const signature = signatureStanding(verdicts);
    const refusal = beyond.has(id) ? numberRefusal(entry) : policyRefusal(entry, signature, ground.policy);
    if (beyond.has(id)) findings.push(logbookFinding("logbook/number-beyond", id, { place: words(entry) }));
    const standing: Standing = {
      signature,
      verdicts,
      uncountedWithdrawals: withdrawals[index]!.uncounted,
      readBack: about.get(id) ?? { kind: "none" },
      recordedApart: latest.some((own) => own.id === id) ? latest.filter((own) => own.id !== id) : [],
      isOfAnotherModel: inRack !== undefined && inRack.entry.unit.profileId !== entry.unit.profileId,
      ...(refusal !== undefined && { refusal }),
    };
    return {
      id,
      entry,
      withdrawals: withdrawals[index]!.counted,
      signatures: item.signatures,
      isLatest,
      standing,
    };
  });
  return { place, items, unseen, unsettled, findings, records };
}

interface JudgedWithdrawals {
  readonly counted: HistoryItem["withdrawals"];
  readonly uncounted: Standing["uncountedWithdrawals"];
}

/** Withdrawals are signed and judged like entries: whoever may not let an entry be loaded may not take one back. */
function judgeWithdrawals(
  { id, entry, withdrawals }: EntryRecords,
  signatures: readonly EntrySignature[],
  { policy }: StandingGround,
  findings: Finding[],
): JudgedWithdrawals {
  const judged = withdrawals.map(({ id: own, withdrawal }) => {
    const about = signatures.filter(({ record }) => record === own);
    return {
      withdrawal,
      signature: signatureStanding(judgeSignatures(withdrawal, about, policy.trustedKeys)),
    };
  });
  const counts = ({ signature }: (typeof judged)[number]) =>
    !policy.restoreNeedsSignature || signature === "trusted";
  for (const item of judged) {
    const place = words(entry);
    if (!counts(item)) {
      const numbers = { signature: item.signature };
      findings.push(logbookFinding("logbook/withdrawal-not-counted", id, { place, numbers }));
    } else if (item.signature === "broken") {
      findings.push(logbookFinding("logbook/broken-withdrawal", id, { place }));
    }
  }
  return {
    counted: judged.filter(counts).map(({ withdrawal }) => withdrawal),
    uncounted: judged.filter((item) => !counts(item)),
  };
}

/** What is known of each entry's loading: what it says itself, else the last that says that it was to be loaded. */
function readBacksById(
  entries: readonly EntryRecords[],
  owns: readonly (OwnReadBack | undefined)[],
): ReadonlyMap<Sha256, ReadBack> {
  const about = new Map<Sha256, ReadBack>();
  for (const [index, own] of owns.entries()) {
    if (own === undefined) continue;
    const { entryId, sha256 } = own.intended ?? {};
    for (const { id, entry } of entries.slice(0, index)) {
      const isIntended = entryId === undefined ? entry.configuration === sha256 : id === entryId;
      if (isIntended) about.set(id, own.readBack);
    }
    about.set(entries[index]!.id, own.readBack);
  }
  return about;
}

function numberRefusal(entry: Entry): Refusal {
  return {
    code: "logbook.number-beyond",
    words: `The number ${entry.number} of this entry follows from no entry before it: no boothkeep wrote it.`,
    next: "Find out where it came from. Nothing is built on it.",
  };
}

function words(entry: Entry): string {
  return `${entry.siteId} / ${entry.screenId}, entry ${entry.number}`;
}
