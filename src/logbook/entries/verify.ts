import type { Sha256 } from "../../base/canonical/index.ts";
import { compareFindings, type Finding } from "../../base/findings/index.ts";
import type { Entry } from "../../model/index.ts";
import {
  CanonicalSubjects,
  configurationResolver,
  type FileCensus,
  type FileStore,
  findPlaces,
  type Logbook,
  logbookFinding,
  type PartShelf,
  REFERENCES,
  readFolder,
  readReference,
  takeCensus,
  withStore,
} from "../medium/index.ts";
import {
  type HistoryItem,
  type JudgedScreen,
  judgeScreen,
  type StandingGround,
  standingGround,
  subjectRefusal,
} from "../standing/index.ts";
import { checkFiles, type FilesChecked } from "./file-checks.ts";
import { distinctFindings } from "./history.ts";

/** How deep a logbook is checked. */
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

/** What a check of a logbook found. */
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
      findings: distinctFindings(findings).toSorted(compareFindings),
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
  const ground = standingGround(logbook);
  const { places, unlistedSites, findings: notPlaced } = findPlaces(store);
  findings.push(...notPlaced, ...ground.policy.findings, ...checkReferences(store));
  findings.push(...unlistedSites.map((site) => logbookFinding("logbook/unlisted-screens", site)));
  const attachments = new Attachments(ground.parts);
  // One for all screens: those with the same unit have most of their structure in common.
  const subjects = new CanonicalSubjects();
  const trusted: EntryName[] = [];
  const lost: EntryName[] = [];
  let listed = 0;
  for (const [index, place] of places.entries()) {
    const screen = judgeScreen(ground, place);
    const check = configurationCheck(ground, screen, subjects);
    findings.push(...screen.findings, ...checkOrder(screen));
    for (const item of screen.items) {
      listed += 1;
      if (!chosen()) continue;
      findings.push(...checkSignatures(item, ground), ...attachments.check(item.entry));
      const finding = check(item);
      if (finding !== undefined) findings.push(finding);
      (finding === undefined ? trusted : lost).push(nameOf(item));
    }
    onProgress?.(index + 1, places.length);
  }
  return { listed, trusted, lost };
}

/** Whether each entry of a screen has its configuration, and it is its own; the finding where not. */
function configurationCheck(
  { logbook, references }: StandingGround,
  { records }: JudgedScreen,
  subjects: CanonicalSubjects,
): (item: HistoryItem) => Finding | undefined {
  const resolve = configurationResolver(logbook.store, records, references);
  return ({ id, entry }) => {
    const resolved = resolve(entry.configuration);
    const place = words(entry);
    if (resolved === undefined) return logbookFinding("logbook/lost-configuration", id, { place });
    const document = subjects.subjectOf(resolved);
    if (document === undefined) {
      return logbookFinding("logbook/not-canonical", id, { place });
    }
    const refusal = subjectRefusal(entry, document);
    return refusal && logbookFinding("logbook/other-screen", id, { place });
  };
}

/** References that do not hold what their names say: their own bytes are whole, since the name vouches for those too. */
function checkReferences(store: FileStore): Finding[] {
  return store.list(REFERENCES).flatMap(({ name, kind }) => {
    if (kind !== "folder") return [];
    const { files, findings } = readFolder(store, `${REFERENCES}/${name}`);
    const other = files.filter((file) => readReference(file) === undefined);
    return [...findings, ...other.map(({ path }) => logbookFinding("logbook/not-understood", path))];
  });
}

function checkOrder({ items, records }: JudgedScreen): Finding[] {
  const findings: Finding[] = [];
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

const OF_VERDICT = {
  broken: "logbook/broken-signature",
  "unknown-key": "logbook/unknown-signer",
  "retired-key": "logbook/retired-signer",
} as const;

function checkSignatures({ id, entry, standing }: HistoryItem, { policy }: StandingGround): Finding[] {
  const findings: Finding[] = [];
  const place = words(entry);
  for (const verdict of standing.verdicts) {
    if (verdict.kind === "trusted") continue;
    const numbers = { fingerprint: verdict.fingerprint };
    // Beside one that holds it costs nothing, and somebody should still know.
    const code =
      verdict.kind === "broken" && standing.signature !== "broken"
        ? "logbook/idle-signature"
        : OF_VERDICT[verdict.kind];
    findings.push(logbookFinding(code, id, { place, numbers }));
  }
  if (policy.restoreNeedsSignature && standing.signature !== "trusted") {
    findings.push(logbookFinding("logbook/unsigned", id, { place }));
  }
  return findings;
}

/** Many entries name the same attachment: each is read once. */
class Attachments {
  private readonly whole = new Map<Sha256, boolean>();
  private readonly parts: PartShelf;

  constructor(parts: PartShelf) {
    this.parts = parts;
  }

  check(entry: Entry): Finding[] {
    return (entry.attachments ?? []).flatMap(({ name, sha256 }) => {
      const isWhole = this.whole.get(sha256) ?? this.parts.has(sha256);
      this.whole.set(sha256, isWhole);
      return isWhole ? [] : [logbookFinding("logbook/missing-attachment", name, { place: words(entry) })];
    });
  }
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
