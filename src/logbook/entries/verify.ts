import type { Sha256 } from "../../base/canonical/index.ts";
import { compareFindings, type Finding } from "../../base/findings/index.ts";
import type { Entry } from "../../model/index.ts";
import { configurationResolver } from "./configurations.ts";
import { withStore } from "./faults.ts";
import { type FileCensus, takeCensus } from "./file-census.ts";
import { checkFiles, type FilesChecked } from "./file-checks.ts";
import { type HistoryItem, screenHistory, screenPlaces } from "./history.ts";
import type { Logbook } from "./logbook.ts";
import { logbookFinding } from "./logbook-findings.ts";
import { readPolicy } from "./policy.ts";
import { readAttachment } from "./read-entry.ts";
import { recordLine } from "./records.ts";
import { readScreen, type ScreenRecords } from "./screen-records.ts";
import { judgeSignatures } from "./signatures.ts";

export interface VerifyOptions {
  /**
   * `files`: every file is there and has the bytes that its name vouches for; `contents`: besides, every configuration
   * is put together and checked, every signature, every link.
   */
  readonly depth: "files" | "contents";
  /** Checks only some files and entries: each with this probability, 0 to 1. Names and the register are checked whole. */
  readonly sample?: { readonly share: number; readonly chance: () => number };
  /** Called after each screen, `contents` only. */
  readonly onProgress?: (done: number, total: number) => void;
}

/** An entry by what a report says of it. */
export interface EntryName {
  readonly id: Sha256;
  readonly siteId: string;
  readonly screenId: string;
  readonly number: number;
}

export interface VerifyReport {
  readonly depth: VerifyOptions["depth"];
  /** 1 when everything was checked. */
  readonly share: number;
  readonly files: FilesChecked;
  readonly entries: {
    readonly listed: number;
    /** Entries whose configuration was put together and checked. */
    readonly trusted: readonly EntryName[];
    /** Entries whose configuration cannot be put together from what is here. */
    readonly lost: readonly EntryName[];
  };
  /** Most serious first. Without an error among them, everything that was checked can be trusted. */
  readonly findings: readonly Finding[];
}

/**
 * Checks a logbook. Reads only; says what can still be trusted.
 * @throws BoothkeepError input.no-permission, output.failed
 */
export function verifyLogbook(logbook: Logbook, options: VerifyOptions): VerifyReport {
  const { store } = logbook;
  return withStore(store, "", () => {
    const census = takeCensus(store);
    const chosen = chooser(options);
    const files = checkFiles(store, census, chosen);
    const findings = [...files.findings];
    const entries =
      options.depth === "contents"
        ? checkContents(logbook, chosen, findings, options.onProgress)
        : { listed: countEntries(census), trusted: [], lost: [] };
    return {
      depth: options.depth,
      share: options.sample?.share ?? 1,
      files: files.counts,
      entries,
      findings: distinct(findings).sort(compareFindings),
    };
  });
}

function chooser({ sample }: VerifyOptions): () => boolean {
  return sample === undefined ? () => true : () => sample.chance() < sample.share;
}

function countEntries(census: FileCensus): number {
  return [...census.folders].reduce(
    (sum, [folder, names]) => (folder.startsWith("entries/") ? sum + names.length : sum),
    0,
  );
}

function checkContents(
  logbook: Logbook,
  chosen: () => boolean,
  findings: Finding[],
  onProgress: VerifyOptions["onProgress"],
): VerifyReport["entries"] {
  const { store } = logbook;
  const policy = readPolicy(logbook);
  const places = screenPlaces(store);
  const trusted: EntryName[] = [];
  const lost: EntryName[] = [];
  let listed = 0;
  for (const [index, place] of places.entries()) {
    const records = readScreen(store, place);
    const resolve = configurationResolver(store, records);
    findings.push(...records.findings, ...checkOrder(records), ...checkForm(records));
    for (const item of screenHistory(records)) {
      listed += 1;
      if (!chosen()) continue;
      findings.push(...checkSignatures(item, policy), ...checkAttachments(logbook, item.entry));
      const name = nameOf(item);
      if (resolve(item.entry.configuration) === undefined) {
        lost.push(name);
        findings.push(logbookFinding("logbook/lost-configuration", item.id, { place: words(item.entry) }));
      } else {
        trusted.push(name);
      }
    }
    onProgress?.(index + 1, places.length);
  }
  return { listed, trusted, lost };
}

/** Ids are those of RFC 8785 texts: a record in another form has none. */
function checkForm({ lines }: ScreenRecords): Finding[] {
  return [...lines].flatMap(([id, [first]]) =>
    first?.kind === "record" && recordLine(first.item.record) !== first.text
      ? [logbookFinding("logbook/not-understood", id)]
      : [],
  );
}

function checkOrder(records: ScreenRecords): Finding[] {
  const findings: Finding[] = [];
  const items = screenHistory(records);
  for (const { id, entry } of items) {
    const before = entry.previous.map((previous) => records.entries.get(previous)?.number ?? 0);
    if (before.some((number) => number >= entry.number)) {
      findings.push(logbookFinding("logbook/number-order", id, { place: words(entry) }));
    }
  }
  const latest = items.filter((item) => item.isLatest);
  if (latest.length > 1) {
    findings.push(
      logbookFinding("logbook/recorded-apart", screenWords(latest[0]!.entry), {
        numbers: { latestEntries: latest.length },
      }),
    );
  }
  return findings;
}

function checkSignatures(item: HistoryItem, policy: ReturnType<typeof readPolicy>): Finding[] {
  const findings: Finding[] = [];
  const verdicts = judgeSignatures(item.entry, item.signatures, policy.trustedKeys);
  const place = words(item.entry);
  for (const verdict of verdicts) {
    const numbers = { fingerprint: verdict.fingerprint };
    if (verdict.kind === "broken") {
      findings.push(logbookFinding("logbook/broken-signature", item.id, { place, numbers }));
    } else if (verdict.kind === "unknown-key") {
      findings.push(logbookFinding("logbook/unknown-signer", item.id, { place, numbers }));
    }
  }
  if (policy.restoreNeedsSignature && !verdicts.some((verdict) => verdict.kind === "trusted")) {
    findings.push(logbookFinding("logbook/unsigned", item.id, { place }));
  }
  return findings;
}

function checkAttachments(logbook: Logbook, entry: Entry): Finding[] {
  return (entry.attachments ?? []).flatMap((attachment) => {
    try {
      readAttachment(logbook, attachment.sha256);
      return [];
    } catch {
      return [logbookFinding("logbook/missing-attachment", attachment.name, { place: words(entry) })];
    }
  });
}

function nameOf({ id, entry }: HistoryItem): EntryName {
  return { id, siteId: entry.siteId, screenId: entry.screenId, number: entry.number };
}

function words(entry: Entry): string {
  return `${screenWords(entry)}, entry ${entry.number}`;
}

function screenWords({ siteId, screenId }: Entry): string {
  return `${siteId} / ${screenId}`;
}

/** Reading a screen and listing its files may find the same thing. */
function distinct(findings: readonly Finding[]): Finding[] {
  const bySubject = new Map(findings.map((finding) => [`${finding.code}\n${finding.words}`, finding]));
  return [...bySubject.values()];
}
