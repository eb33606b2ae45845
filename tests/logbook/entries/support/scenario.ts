import { expect } from "vitest";
import { canonicalText } from "../../../../src/base/canonical/index.ts";
import { BoothkeepError } from "../../../../src/base/errors/index.ts";
import {
  bindLogbook,
  createLogbook,
  type FileStore,
  healLogbook,
  history,
  type KeptDocument,
  type Logbook,
  memoryStore,
  mergeLogbook,
  openLogbook,
  readAttachment,
  readEntry,
  record,
  setPolicy,
  verifyLogbook,
  withdraw,
} from "../../../../src/logbook/entries/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./documents.ts";

/** What a run has promised: every entry whose recording returned, with its configuration. */
export interface Promises {
  readonly entries: Map<string, KeptDocument>;
  readonly withdrawn: Set<string>;
}

export const ATTACHMENT = new TextEncoder().encode("<export/>");

/** The screens' configurations that a run records, in order. */
const VISITS: readonly KeptDocument[] = [
  configuration(),
  configuration({}, { screenId: "screen-4", serial: "T16-00418" }),
  configuration({ outputs: [{ id: "left-hf", gainDb: -2 }] }),
  configuration({ outputs: [{ id: "left-hf", gainDb: -2 }] }),
  configuration({}, { siteId: "Quay 7", screenId: "screen-1", serial: "T16-00419" }),
  configuration({ outputs: [] }),
];

const MERGED = configuration({ sources: [] });
const LATE = configuration({ presets: [1] });

/** Another logbook with an entry of the same screen, recorded apart. */
export function otherLogbook(): Logbook {
  const other = createLogbook(memoryStore(), NEW_LOGBOOK);
  record(other, { configuration: MERGED, ...circumstances(90) });
  return other;
}

/** Does a bit of everything that writes, noting what was promised as it goes. */
export function runScenario(store: FileStore, promises: Promises): void {
  const logbook = openOrCreate(store);
  for (const [index, document] of VISITS.entries()) {
    const { id } = record(logbook, {
      configuration: document,
      ...circumstances(index),
      ...(index === 0 ? { attachments: [{ name: "export.xml", bytes: ATTACHMENT }] } : {}),
    });
    promises.entries.set(id, document);
    if (index === 2) {
      withdraw(
        logbook,
        { id },
        { reason: "Wrong preset.", recordedAt: "2026-03-03T08:00:00Z", recordedBy: "north" },
      );
      promises.withdrawn.add(id);
    }
  }
  setPolicy(logbook, {
    restoreNeedsSignature: false,
    trustedKeys: [],
    recordedAt: "2026-03-03T08:00:00Z",
    recordedBy: "north",
  });
  mergeLogbook(logbook, otherLogbook());
  for (const { id } of history(otherLogbook()).items) promises.entries.set(id, MERGED);
  bindLogbook(logbook, { siteId: "harbour-lights" });
  promises.entries.set(record(logbook, { configuration: LATE, ...circumstances(100) }).id, LATE);
  bindLogbook(logbook);
  healLogbook(logbook, undefined);
}

export function openOrCreate(store: FileStore): Logbook {
  try {
    return openLogbook(store);
  } catch (error) {
    if (!(error instanceof BoothkeepError) || error.code !== "logbook.not-found") throw error;
    return createLogbook(store, NEW_LOGBOOK);
  }
}

export function noPromises(): Promises {
  return { entries: new Map(), withdrawn: new Set() };
}

/**
 * After whatever happened: everything that was promised is there and whole, everything that is there is whole, no
 * error is reported, and recording goes on without any repair.
 */
export function expectSound(store: FileStore, promises: Promises, where: string): void {
  let logbook: Logbook;
  try {
    logbook = openLogbook(store);
  } catch (error) {
    expect(error, where).toMatchObject({ code: "logbook.not-found" });
    expect(promises.entries.size, where).toBe(0);
    return;
  }
  expectKept(logbook, promises, where);
  const report = verifyLogbook(logbook, { depth: "contents" });
  expect(
    report.findings.filter((finding) => finding.severity === "error"),
    where,
  ).toEqual([]);

  const next = configuration({ after: where });
  const { id } = record(logbook, { configuration: next, ...circumstances(200) });
  expect(readEntry(logbook, { id }).configuration, where).toEqual(next);
  const { entry } = readEntry(logbook, { id });
  const leftOver = store
    .list(`entries/${entry.siteId}/${entry.screenId}`)
    .filter((item) => item.name.startsWith("~"));
  expect(leftOver, where).toEqual([]);
}

/** Every promised entry is there with its configuration, and no entry that is there gives another one. */
export function expectKept(logbook: Logbook, promises: Promises, where: string): void {
  const { items } = history(logbook);
  const there = new Map(items.map((item) => [item.id, item]));
  for (const [id, document] of promises.entries) {
    expect(there.has(id), `${where}: ${id}`).toBe(true);
    expect(readEntry(logbook, { id }).canonicalText, where).toBe(canonicalText(document));
  }
  for (const id of promises.withdrawn) expect(there.get(id)!.withdrawals, where).toHaveLength(1);
  const known = new Set([...VISITS, MERGED, LATE].map(canonicalText));
  for (const { id, entry } of items) {
    const read = readEntry(logbook, { id });
    expect(known.has(read.canonicalText) || read.configuration.after !== undefined, where).toBe(true);
    for (const { sha256 } of entry.attachments ?? [])
      expect(readAttachment(logbook, sha256), where).toEqual(ATTACHMENT);
  }
}
