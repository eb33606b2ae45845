import { checkFilterFrequency, invalidSetting, type SettingPlace } from "../limits.ts";
import type { Section } from "../section.ts";
import { type AllPassSettings, allPass } from "./all-pass.ts";
import { type BandPassSettings, bandPass } from "./band-pass.ts";
import type { FilterKind, FilterSettings } from "./filter-kind.ts";
import { type HighPassSettings, highPass } from "./high-pass.ts";
import { type HighShelfSettings, highShelf } from "./high-shelf.ts";
import { type LowPassSettings, lowPass } from "./low-pass.ts";
import { type LowShelfSettings, lowShelf } from "./low-shelf.ts";
import { type NotchSettings, notch } from "./notch.ts";
import { type PeakingSettings, peaking } from "./peaking.ts";

/** The settings of a parametric filter; `kind` tells them apart. */
export type ParametricFilter =
  | PeakingSettings
  | LowShelfSettings
  | HighShelfSettings
  | LowPassSettings
  | HighPassSettings
  | BandPassSettings
  | NotchSettings
  | AllPassSettings;

/** Every kind of parametric filter. A new kind is a file, a line above and a place here. */
const FILTER_KINDS: readonly KindOf<ParametricFilter>[] = [
  peaking,
  lowShelf,
  highShelf,
  lowPass,
  highPass,
  bandPass,
  notch,
  allPass,
];

type KindOf<Settings> = Settings extends FilterSettings ? FilterKind<Settings> : never;

/** The `kind` of every parametric filter, in the order of the list. */
export const FILTER_KIND_NAMES: readonly ParametricFilter["kind"][] = FILTER_KINDS.map(({ kind }) => kind);

const BY_KIND: ReadonlyMap<string, FilterKind<FilterSettings>> = new Map(
  // Each entry is only ever handed settings of its own kind.
  FILTER_KINDS.map((entry) => [entry.kind, entry as unknown as FilterKind<FilterSettings>]),
);

/**
 * The sections of a parametric filter at a sample rate; none when it is bypassed (`enabled: false`).
 *
 * @param place JSON Pointer of the filter, for errors.
 * @throws BoothkeepError `acoustics.invalid-filter` with the place of the setting that cannot be computed: a frequency
 *   at or above half the sample rate, Q of 0 or below, a gain beyond ±60 dB, NaN, an unknown kind.
 * @example
 * filterSections({ kind: "peaking", frequencyHz: 1000, gainDb: 6, q: 1 }, 48_000);
 */
export function filterSections(
  filter: ParametricFilter,
  sampleRateHz: number,
  place: SettingPlace = "",
): readonly Section[] {
  if (filter.enabled === false) return [];
  const kind = BY_KIND.get(filter.kind);
  if (kind === undefined) {
    throw invalidSetting(`There is no filter of the kind '${filter.kind}'.`, `${place}/kind`);
  }
  checkFilterFrequency(filter.frequencyHz, sampleRateHz, `${place}/frequencyHz`);
  kind.check(filter, place);
  return kind.sections(filter, sampleRateHz);
}

/** The sections of a list of filters; the place is that of the list. */
export function listedSections(
  filters: readonly ParametricFilter[],
  sampleRateHz: number,
  place: SettingPlace,
): readonly Section[] {
  return filters.flatMap((filter, index) => filterSections(filter, sampleRateHz, `${place}/${index}`));
}
