import type { SettingPlace } from "../limits.ts";
import type { Section } from "../section.ts";

/** What every parametric filter may carry. */
export interface FilterSettings {
  readonly kind: string;
  /** Corner or center in Hz, below half the sample rate. */
  readonly frequencyHz: number;
  readonly id?: string | undefined;
  /** false: bypassed, no effect on the sound. @defaultValue true */
  readonly enabled?: boolean | undefined;
}

/** One kind of parametric filter: how its settings become sections. One file a kind, one line in filter-kinds.ts. */
export interface FilterKind<Settings extends FilterSettings> {
  readonly kind: Settings["kind"];
  /** Refuses settings of this kind (besides the frequency, which is checked for all) that cannot be computed. */
  check(settings: Settings, place: SettingPlace): void;
  /** The sections at a sample rate, for settings that passed the check. */
  sections(settings: Settings, sampleRateHz: number): readonly Section[];
}
