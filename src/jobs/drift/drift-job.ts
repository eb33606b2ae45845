import {
  acceptanceOf,
  type DriftFinding,
  type DriftGroup,
  DriftGroups,
  deviationsSince,
  keyOf,
} from "../../fleet/drift/index.ts";
import { type TwinCounts, TwinFinder, type TwinGroup } from "../../fleet/likeness/index.ts";
import { type CompiledStandard, deviationsFrom, isForScreen, unitSteps } from "../../fleet/standard/index.ts";
import type { UnitProfile } from "../../model/index.ts";
import type { FleetScreen } from "../screens/fleet-screen.ts";
import type { UnreadScreen } from "../screens/load-screens.ts";

/** A screen to compare with a standard. */
export interface ScreenToHold extends FleetScreen {
  /** Absent: numbers that the unit had to round count as deviations. */
  readonly profile?: UnitProfile | undefined;
}

/** How far a fleet follows its standard. */
export interface Drift {
  readonly standard: { readonly id: string; readonly version: string; readonly title: string };
  /** Screens that the standard is for. */
  readonly screens: number;
  /** Screens that follow it in everything. */
  readonly following: number;
  /** Screens that differ from it only where that was decided and recorded. */
  readonly byDecision: number;
  /** Names of screens that the standard is not for. */
  readonly others: readonly string[];
  /** Screens that could not be held, since they have no configuration that can be read. */
  readonly unread: readonly UnreadScreen[];
  readonly findings: readonly DriftFinding[];
  /** What stays by decision: no drift, and told apart. */
  readonly accepted: readonly DriftFinding[];
  readonly twins: readonly TwinGroup[];
}

/** What a job has gathered, as plain data: can be sent to another thread and added to another job of the same standard. */
export interface DriftPart {
  readonly screens: number;
  readonly following: number;
  readonly byDecision: number;
  readonly others: readonly string[];
  readonly unread: readonly UnreadScreen[];
  readonly groups: readonly DriftGroup[];
  readonly twins: readonly TwinCounts[];
}

/** Holds screens against a standard, one by one, and gathers what is alike. */
export class DriftJob {
  readonly #standard: CompiledStandard;
  readonly #groups = new DriftGroups();
  readonly #twins = new TwinFinder();
  readonly #others: string[] = [];
  readonly #unread: UnreadScreen[] = [];
  #screens = 0;
  #following = 0;
  #byDecision = 0;

  constructor(standard: CompiledStandard) {
    this.#standard = standard;
  }

  add({ name, configuration, profile, snapshots, applied }: ScreenToHold): void {
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
    const decided = deviations.length === 0 ? [] : (applied?.() ?? []);
    const told = deviations.map((deviation) => ({
      deviation,
      since: since?.get(keyOf(deviation)),
      accepted: acceptanceOf(deviation, decided, this.#standard.standard),
    }));
    if (told.length > 0 && told.every(({ accepted }) => accepted !== undefined)) this.#byDecision += 1;
    this.#groups.add(name, configuration, told);
  }

  /** Says of a screen that it could not be read. */
  leaveOut(screen: UnreadScreen): void {
    this.#unread.push(screen);
  }

  /** Adds what another job of the same standard has gathered of other screens. */
  addPart({ screens, following, byDecision, others, unread, groups, twins }: DriftPart): void {
    this.#screens += screens;
    this.#following += following;
    this.#byDecision += byDecision;
    this.#others.push(...others);
    this.#unread.push(...unread);
    this.#groups.addGroups(groups);
    this.#twins.addCounts(twins);
  }

  part(): DriftPart {
    return {
      screens: this.#screens,
      following: this.#following,
      byDecision: this.#byDecision,
      others: this.#others,
      unread: this.#unread,
      groups: this.#groups.groups(),
      twins: this.#twins.counts(),
    };
  }

  result(): Drift {
    const { id, version, title } = this.#standard.standard;
    return {
      standard: { id, version, title },
      screens: this.#screens,
      following: this.#following,
      byDecision: this.#byDecision,
      others: this.#others,
      unread: this.#unread,
      findings: this.#groups.findings(),
      accepted: this.#groups.accepted(),
      twins: this.#twins.groups(),
    };
  }
}
