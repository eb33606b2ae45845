import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { afterAll, describe, expect, it } from "vitest";
import {
  createLogbook,
  folderStore,
  history,
  openLogbook,
  readEntry,
  record,
  verifyLogbook,
} from "../../../src/logbook/entries/index.ts";
import { LONG } from "../../runs.ts";
import { buildChild, type ChildTask, runChild, startChild } from "./support/child-process.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";
import { openOrCreate } from "./support/scenario.ts";

const root = mkdtempSync(join(tmpdir(), "processes-"));
afterAll(() => rmSync(root, { recursive: true }));
const child = buildChild(root);

function newFolder(): string {
  return mkdtempSync(join(root, "logbook-"));
}

/** Every id is there, whole, and nothing is reported. */
function expectWhole(folder: string, ids: readonly string[]): void {
  const logbook = openLogbook(folderStore(folder));
  const there = new Set(history(logbook).items.map((item) => item.id));
  expect(ids.filter((id) => !there.has(id))).toEqual([]);
  const report = verifyLogbook(logbook, { depth: "contents" });
  expect(report.findings.filter((finding) => finding.severity === "error")).toEqual([]);
  expect(report.entries.lost).toEqual([]);
}

/**
 * Kills a task before its changing operations in turn, each time on a fresh copy of a prepared folder; gives how far
 * the task got.
 */
function killAtEveryOperation(
  task: ChildTask["task"],
  prepared: string,
  ids: readonly string[],
  step = 1,
): number {
  for (let killBefore = 1; ; killBefore += step) {
    const folder = newFolder();
    cpSync(prepared, folder, { recursive: true });
    if (task === "merge" || task === "heal")
      cpSync(`${prepared}-other`, `${folder}-other`, { recursive: true });
    const { killed, ids: recorded } = runChild(child, { folder, task, number: 7, killBefore });
    expectWhole(folder, [...ids, ...recorded]);
    if (!killed) return killBefore - 1;
    const again = runChild(child, { folder, task, number: 7 });
    expectWhole(folder, [...ids, ...again.ids]);
    const left = folderStore(folder)
      .list("entries/harbour-lights/screen-3")
      .map((item) => item.name);
    if (task === "record") expect(left.filter((name) => name.startsWith("~"))).toEqual([]);
    rmSync(folder, { recursive: true });
  }
}

/** A logbook with two visits, and beside it another one with a third. */
function prepare(): { readonly folder: string; readonly ids: readonly string[] } {
  const folder = newFolder();
  const visit = (at: string, minute: number) =>
    record(openOrCreate(folderStore(at)), {
      configuration: configuration({ outputs: [minute] }),
      ...circumstances(minute),
    }).id;
  const ids = [visit(folder, 1), visit(folder, 2)];
  cpSync(folder, `${folder}-other`, { recursive: true });
  visit(`${folder}-other`, 3);
  return { folder, ids };
}

describe("a process that is killed", () => {
  it("before any writing operation of a recording leaves a sound logbook", () => {
    const { folder, ids } = prepare();
    expect(killAtEveryOperation("record", folder, ids)).toBeGreaterThanOrEqual(5);
  });

  it.runIf(LONG).each(["withdraw", "bind", "merge", "heal"] as const)(
    "before any writing operation of %s leaves a sound logbook",
    (task) => {
      const { folder, ids } = prepare();
      expect(killAtEveryOperation(task, folder, ids)).toBeGreaterThanOrEqual(5);
    },
    600_000,
  );

  it("at the first recording of a profile leaves a sound logbook", () => {
    const folder = newFolder();
    createLogbook(folderStore(folder), NEW_LOGBOOK);
    expect(killAtEveryOperation("record", folder, [], LONG ? 1 : 3)).toBeGreaterThanOrEqual(12);
  });

  it("at any time, while eight record, costs no entry that was recorded", async () => {
    const folder = newFolder();
    createLogbook(folderStore(folder), NEW_LOGBOOK);
    const writers = Array.from({ length: 8 }, (_, number) =>
      startChild(child, { folder, task: "record", number, count: 40 }),
    );
    for (const [index, writer] of writers.entries()) {
      await wait(20 + 15 * index);
      if (index % 2 === 1) writer.process.kill("SIGKILL");
    }
    const ids = (await Promise.all(writers.map((writer) => writer.ids))).flat();
    expect(ids.length).toBeGreaterThanOrEqual(160);
    expectWhole(folder, ids);
  });
});

/** What tasks come to; a failure ends the waiting and is thrown when the ids are asked for. */
function outcome(tasks: readonly Promise<readonly string[]>[]) {
  const settled = Promise.allSettled(tasks);
  const state = {
    ended: false,
    ids: async () => {
      const results = await settled;
      return results.flatMap((result) => {
        if (result.status === "rejected") throw result.reason;
        return result.value;
      });
    },
  };
  void settled.then(() => {
    state.ended = true;
  });
  return state;
}

describe("eight processes", () => {
  it("record at once on one screen: none waits, none is refused, nothing is lost", async () => {
    const folder = newFolder();
    createLogbook(folderStore(folder), NEW_LOGBOOK);
    const count = LONG ? 125 : 12;
    const writers = Array.from({ length: 8 }, (_, number) =>
      startChild(child, { folder, task: "record", number, count }),
    );
    const ids = (await Promise.all(writers.map((writer) => writer.ids))).flat();
    expect(new Set(ids).size).toBe(8 * count);
    expectWhole(folder, ids);
    const last = record(openLogbook(folderStore(folder)), {
      configuration: configuration(),
      ...circumstances(1),
    });
    const { items } = history(openLogbook(folderStore(folder)));
    expect(items.filter((item) => item.isLatest).map((item) => item.id)).toEqual([last.id]);
  }, 120_000);

  it("may bind while others record and read", async () => {
    const folder = newFolder();
    createLogbook(folderStore(folder), NEW_LOGBOOK);
    const writers = Array.from({ length: 4 }, (_, number) =>
      startChild(child, { folder, task: "record", number, count: LONG ? 100 : 15 }),
    );
    const recorded = outcome(writers.map((writer) => writer.ids));
    while (!recorded.ended) {
      const binders = [1, 2].map(() => startChild(child, { folder, task: "bind" }).ids);
      const { items } = history(openLogbook(folderStore(folder)));
      for (const { id } of items.slice(-3))
        expect(readEntry(openLogbook(folderStore(folder)), { id }).id).toBe(id);
      await Promise.all(binders);
    }
    expectWhole(folder, await recorded.ids());
  }, 120_000);

  it("may verify while others record and bind: no false alarm", async () => {
    const folder = newFolder();
    createLogbook(folderStore(folder), NEW_LOGBOOK);
    const tasks = [0, 1, 2].map(
      (number) => startChild(child, { folder, task: "record", number, count: 12 }).ids,
    );
    const recorded = outcome(tasks);
    for (let round = 0; !recorded.ended; round += 1) {
      const binder = startChild(child, { folder, task: "bind" }).ids;
      const { findings } = verifyLogbook(openLogbook(folderStore(folder)), {
        depth: round % 2 === 0 ? "files" : "contents",
      });
      expect(findings.filter((finding) => finding.severity === "error")).toEqual([]);
      await binder;
    }
    expectWhole(folder, await recorded.ids());
  }, 120_000);
});
