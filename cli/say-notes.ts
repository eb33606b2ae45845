import type { Finding } from "../src/public/boothkeep.ts";
import { EXIT_CODE } from "../src/public/boothkeep.ts";
import { type ScreenNote, unseenWords } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { wrap } from "./wrap.ts";

/** What a command that reads a logbook could not see there. */
export interface SeenInLogbook {
  readonly notes: readonly ScreenNote[];
  readonly unlistedSites?: readonly string[];
  readonly findings?: readonly Finding[];
}

/** More screens than these are counted, not named. */
const MOST_NAMED = 8;

/**
 * Says in a line for each screen what could not be seen of it, and of read-backs that differ. Where something is missing or
 * damaged, the command ends with 3, whatever else it found.
 */
export function sayNotes(
  { notes, unlistedSites = [], findings = [] }: SeenInLogbook,
  context: Context,
): void {
  const lines = notes.flatMap(
    ({ siteId, screenId, unseen }) => unseenWords(`${siteId} / ${screenId}`, unseen) ?? [],
  );
  const differing = notes.flatMap(({ siteId, screenId, unsettled }) =>
    unsettled === undefined
      ? []
      : [
          `${siteId} / ${screenId}: the last read-back (entry ${unsettled.entry.number}, ${unsettled.entry.recordedAt.slice(0, 10)}) differs from what was to be loaded.`,
        ],
  );
  const unlisted = unlistedSites.map(
    (site) =>
      `Screens of ${site} may be missing here: what held them is missing or damaged. Run 'boothkeep verify'.`,
  );
  const all = [...new Set([...unlisted, ...lines, ...differing])];
  for (const line of all.slice(0, MOST_NAMED)) context.err(wrap(`boothkeep: ${line}`, context.columns));
  if (all.length > MOST_NAMED) {
    const words = `${all.length - MOST_NAMED} more screens lack something: 'boothkeep verify' lists everything.`;
    context.err(wrap(`boothkeep: ${words}`, context.columns));
  }
  const isDamaged =
    lines.length + unlisted.length > 0 || findings.some(({ severity }) => severity === "error");
  if (isDamaged) context.exit(EXIT_CODE.damaged);
}
