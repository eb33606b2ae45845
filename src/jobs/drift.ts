import type { Configuration, UnitProfile } from "../model/index.ts";
import {
  type CompiledStandard,
  type DriftFinding,
  DriftGroups,
  deviationsFrom,
  deviationsSince,
  isForScreen,
  keyOf,
  type Snapshot,
  TwinFinder,
  type TwinGroup,
  unitSteps,
} from "../standard/index.ts";

/** A screen to hold against a standard. */
export interface ScreenToHold {
  /** As it is to be named: "lantern-mill/screen-1". */
  readonly name: string;
  readonly configuration: Configuration;
  /** Absent: numbers that the unit had to round count as deviations. */
  readonly profile?: UnitProfile | undefined;
  /** The screen's entries in their order, the last being the configuration; absent: nobody knows since when. */
  readonly snapshots?: readonly Snapshot[] | undefined;
}

export interface Drift {
  readonly standard: { readonly id: string; readonly version: string; readonly title: string };
  /** Screens that the standard is for. */
  readonly screens: number;
  /** Screens that follow it in everything. */
  readonly following: number;
  /** Names of screens that the standard is not for. */
  readonly others: readonly string[];
  readonly findings: readonly DriftFinding[];
  readonly twins: readonly TwinGroup[];
}

/** Holds screens against a standard, one by one, and gathers what is alike. */
export class DriftJob {
  readonly #standard: CompiledStandard;
  readonly #groups = new DriftGroups();
  readonly #twins = new TwinFinder();
  readonly #others: string[] = [];
  #screens = 0;
  #following = 0;

  constructor(standard: CompiledStandard) {
    this.#standard = standard;
  }

  add({ name, configuration, profile, snapshots }: ScreenToHold): void {
    this.#twins.add(configuration, name);
    if (!isForScreen(this.#standard.standard, configuration)) {
      this.#others.push(name);
      return;
    }
    this.#screens += 1;
    const settle = unitSteps(configuration, profile);
    const deviations = deviationsFrom(configuration, this.#standard, settle);
    if (deviations.length === 0) this.#following += 1;
    const since = snapshots && deviationsSince(snapshots, deviations, settle);
    this.#groups.add(
      name,
      configuration,
      deviations.map((deviation) => ({ deviation, since: since?.get(keyOf(deviation)) })),
    );
  }

  result(): Drift {
    const { id, version, title } = this.#standard.standard;
    return {
      standard: { id, version, title },
      screens: this.#screens,
      following: this.#following,
      others: this.#others,
      findings: this.#groups.findings(),
      twins: this.#twins.groups(),
    };
  }
}
