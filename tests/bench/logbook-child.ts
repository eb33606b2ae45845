/** One job of a logbook as a whole process, for the benchmark: the folder, the job, its arguments. */
import { readFileSync } from "node:fs";
import {
  folderStore,
  history,
  openLogbook,
  readEntry,
  record,
  verifyLogbook,
} from "../../src/logbook/entries/index.ts";

const [folder, job, first, second] = process.argv.slice(2) as [string, string, string, string];
const logbook = openLogbook(folderStore(folder));
switch (job) {
  case "record": {
    const { id } = record(logbook, {
      configuration: JSON.parse(readFileSync(first, "utf8")) as Record<string, unknown>,
      reason: "routine",
      recordedAt: second,
      recordedBy: "Service team",
    });
    process.stdout.write(id);
    break;
  }
  case "list":
    process.stdout.write(`${history(logbook, { siteId: first, screenId: second }).items.length}`);
    break;
  case "fetch":
    process.stdout.write(readEntry(logbook, { siteId: first, screenId: second }).canonicalText);
    break;
  case "verify-files":
    process.stdout.write(`${verifyLogbook(logbook, { depth: "files" }).findings.length}`);
    break;
  case "verify-contents":
    process.stdout.write(`${verifyLogbook(logbook, { depth: "contents" }).entries.trusted.length}`);
    break;
}
