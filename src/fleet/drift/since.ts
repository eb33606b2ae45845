import type { Configuration } from "../../model/index.ts";
import { type Deviation, deviatesAt, type Settle } from "../standard/index.ts";

/** One entry of a screen's history. */
export interface Snapshot {
  readonly entryId: string;
  readonly number: number;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly reason: string;
  /** SHA-256 of the configuration: equal ones are read once. */
  readonly sha256: string;
  /** Undefined when it cannot be put together any more. */
  readonly read: () => Configuration | undefined;
}

/** The entry in which something first shows. */
export interface Since {
  readonly entryId: string;
  readonly number: number;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly reason: string;
  /** True: it is in the first entry already, so nobody knows since when. */
  readonly fromTheStart: boolean;
}

/**
 * Since which entry each deviation of the latest entry has been there without a break, by its place. Of earlier
 * configurations only the places are looked at that are still open.
 *
 * @param snapshots in their order; the last is the one in which the deviations were found
 * @param settle what values become in the screen's unit
 */
export function deviationsSince(
  snapshots: readonly Snapshot[],
  deviations: readonly Deviation[],
  settle: Settle,
): ReadonlyMap<string, Since> {
  const since = new Map<string, Since>();
  let open = deviations;
  let later: Snapshot | undefined;
  for (const snapshot of snapshots.toReversed()) {
    if (open.length === 0) return since;
    if (later !== undefined && snapshot.sha256 !== later.sha256) {
      const configuration = snapshot.read();
      if (configuration !== undefined) {
        const still = open.filter((deviation) => deviatesAt(configuration, deviation, settle));
        const isStill = new Set(still);
        const from = sinceOf(later, false);
        for (const deviation of open) if (!isStill.has(deviation)) since.set(keyOf(deviation), from);
        open = still;
      }
    }
    later = snapshot;
  }
  if (later === undefined) return since;
  const from = sinceOf(later, true);
  for (const deviation of open) since.set(keyOf(deviation), from);
  return since;
}

/** What makes two deviations the same one. */
export function keyOf({ kind, path }: Deviation): string {
  return `${kind}:${path.join("/")}`;
}

/** An entry as the one in which something first shows. */
export function sinceOf(
  { entryId, number, recordedAt, recordedBy, reason }: Omit<Snapshot, "read" | "sha256">,
  fromTheStart: boolean,
): Since {
  return { entryId, number, recordedAt, recordedBy, reason, fromTheStart };
}
