import { existsSync } from "node:fs";
import { join } from "node:path";

/** Whether a folder is a logbook: also one that has lost its header, of which nobody may say that there is nothing in it. */
export function isLogbook(path: string): boolean {
  return existsSync(join(path, "logbook.json")) || existsSync(join(path, "register", "entries"));
}
