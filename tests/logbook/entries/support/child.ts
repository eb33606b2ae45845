/*
 * A process of its own that works on a logbook, for tests that end it. Arguments: the folder, what to do, a number
 * that makes what it records distinct, how many entries to record, and before which changing operation it kills
 * itself (0: never). Prints the id of each entry that was recorded.
 */
import { closeSync, openSync, writeSync } from "node:fs";
import { join } from "node:path";
import {
  bindLogbook,
  folderStore,
  healLogbook,
  mergeLogbook,
  openLogbook,
  record,
  withdraw,
} from "../../../../src/logbook/entries/index.ts";
import { circumstances, configuration } from "./documents.ts";
import { CHANGING, watchedStore } from "./faulty-store.ts";

const [folder, task, number, count, killBefore] = process.argv.slice(2) as [
  string,
  string,
  string,
  string,
  string,
];

const store = watchedStore(folderStore(folder), CHANGING, (call) => {
  if (call.number !== Number(killBefore)) return;
  if (call.operation === "create") writeHalf(call.path);
  process.kill(process.pid, "SIGKILL");
});

/** What a writer leaves that is ended in the middle of writing. */
function writeHalf(path: string): void {
  try {
    const descriptor = openSync(join(folder, path), "wx");
    writeSync(descriptor, "\u001f\u008b half");
    closeSync(descriptor);
  } catch {
    // The folder is not there yet.
  }
}

const logbook = openLogbook(store);
switch (task) {
  case "record":
    for (let index = 0; index < Number(count); index += 1) {
      const minute = Number(number) * 1000 + index;
      const document = configuration({ outputs: [{ id: "left-hf", gainDb: minute }] });
      const { id } = record(logbook, { configuration: document, ...circumstances(minute) });
      process.stdout.write(`${id}\n`);
    }
    break;
  case "withdraw":
    withdraw(
      logbook,
      { siteId: "harbour-lights", screenId: "screen-3" },
      { reason: `No ${number}.`, recordedAt: "2026-03-03T08:00:00Z", recordedBy: "north" },
    );
    break;
  case "bind":
    bindLogbook(logbook);
    break;
  case "merge":
    mergeLogbook(logbook, openLogbook(folderStore(`${folder}-other`)));
    break;
  case "heal":
    healLogbook(logbook, openLogbook(folderStore(`${folder}-other`)));
    break;
}
