import type { Acceptance, DriftedScreen, DriftFinding, Since } from "../../../fleet/drift/index.ts";
import type { ReportedDrift } from "./drift.ts";

/**
 * Drift as plain data for scripts. Screens and entries stand once, in lists of their own, and findings refer to them by
 * position, so that ten thousand screens with fifty deviations each stay a file that can be read.
 */
export function driftJson(drift: ReportedDrift): unknown {
  const names = new Positions<string>((name) => name);
  const entries = new Positions<EntryRow>(({ screen, number }) => `${screen}\n${number}`);
  const entryOf = (
    screen: number,
    { entryId, number, recordedAt, recordedBy, ...rest }: Since | Acceptance,
  ) =>
    entries.of({
      screen,
      entryId,
      number,
      recordedAt,
      recordedBy,
      reason: "reason" in rest ? rest.reason : "standard-applied",
    });
  const screenOf = ({ name, actual, off, since, accepted }: DriftedScreen) => {
    const screen = names.of(name);
    return {
      screen,
      actual,
      ...(off !== undefined && { off }),
      ...(since !== undefined && {
        since: entryOf(screen, since),
        ...(since.fromTheStart && { fromTheStart: true }),
      }),
      ...(accepted !== undefined && { accepted: entryOf(screen, accepted) }),
    };
  };
  const finding = (one: DriftFinding) => ({ ...one, screens: one.screens.map(screenOf) });
  const findings = drift.findings.map(finding);
  const accepted = drift.accepted.map(finding);
  return { ...drift, names: names.all, entries: entries.all, findings, accepted };
}

interface EntryRow {
  /** Position among the names. */
  readonly screen: number;
  readonly entryId: string;
  readonly number: number;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly reason: string;
}

/** A list in which each thing stands once. */
class Positions<Thing> {
  readonly all: Thing[] = [];
  readonly #known = new Map<string, number>();
  readonly #keyOf: (thing: Thing) => string;

  constructor(keyOf: (thing: Thing) => string) {
    this.#keyOf = keyOf;
  }

  of(thing: Thing): number {
    const key = this.#keyOf(thing);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    this.#known.set(key, this.all.length);
    return this.all.push(thing) - 1;
  }
}
