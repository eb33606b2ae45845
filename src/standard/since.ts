import type { Configuration } from "../model/index.ts";
import type { CompiledStandard } from "./compile.ts";
import { type Deviation, deviationsFrom } from "./deviations.ts";
import type { Settle } from "./unit-steps.ts";

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

/** The entry in which a deviation first shows. */
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
 * Since which entry each deviation of the latest entry has been there without a break, by its place.
 *
 * @param snapshots in their order; the last is the one in which the deviations were found
 */
export function deviationsSince(
  snapshots: readonly Snapshot[],
  deviations: readonly Deviation[],
  { standard, settle }: { readonly standard: CompiledStandard; readonly settle: Settle },
): ReadonlyMap<string, Since> {
  const since = new Map<string, Since>();
  let open = new Set(deviations.map(keyOf));
  let later: Snapshot | undefined;
  let known: ReadonlySet<string> = new Set();
  for (const snapshot of [...snapshots].reverse()) {
    if (open.size === 0) return since;
    if (later === undefined || snapshot.sha256 !== later.sha256) {
      const configuration = later === undefined ? undefined : snapshot.read();
      if (later !== undefined && configuration !== undefined) {
        known = new Set(deviationsFrom(configuration, standard, settle).map(keyOf));
        const from = later;
        for (const key of open) if (!known.has(key)) since.set(key, sinceOf(from, false));
        open = new Set([...open].filter((key) => known.has(key)));
      }
    }
    later = snapshot;
  }
  if (later !== undefined) for (const key of open) since.set(key, sinceOf(later, true));
  return since;
}

/** What makes two deviations the same one. */
export function keyOf({ kind, path }: Deviation): string {
  return `${kind}:${path.join("/")}`;
}

function sinceOf(
  { entryId, number, recordedAt, recordedBy, reason }: Snapshot,
  fromTheStart: boolean,
): Since {
  return { entryId, number, recordedAt, recordedBy, reason, fromTheStart };
}
