import { naturalOrder } from "../../base/text/index.ts";
import type { Configuration, Json } from "../../model/index.ts";
import { Census, type CensusCounts, screenDrives, type ValueCount } from "../standard/index.ts";

/** A place at which nearly all of the screens that should be alike agree, and one or a few do not. */
export interface OddOneOut {
  readonly place: string;
  readonly field: string;
  readonly usual: Json | null;
  readonly screens: number;
  readonly others: readonly { readonly value: Json | null; readonly screens: readonly string[] }[];
}

/** Screens that should be alike: the same format, drive and unit. */
export interface TwinGroup {
  readonly format: string;
  readonly drives: readonly string[];
  readonly profileId: string;
  readonly screens: number;
  readonly odd: readonly OddOneOut[];
}

/** What screens that should be alike share. */
export type Twins = Pick<TwinGroup, "format" | "drives" | "profileId">;

/** What a finder has gathered of screens that should be alike, as plain data. */
export interface TwinCounts {
  readonly of: Twins;
  readonly counts: CensusCounts;
}

/** At least so many screens make a majority worth the name. */
export const FEWEST_TWINS = 3;
/** Those that differ are odd where they are at most this share of all. */
export const ODD_SHARE = 0.25;

/** Finds, among screens that should be alike, the odd ones out. Screens are taken one by one and not kept. */
export class TwinFinder {
  readonly #groups = new Map<string, { readonly of: Twins; readonly census: Census }>();

  add(configuration: Configuration, name: string): void {
    const of = {
      format: configuration.screen.format,
      drives: screenDrives(configuration),
      profileId: configuration.unit.profileId,
    };
    this.#census(of).add(configuration, name);
  }

  /** Adds what another finder has gathered of other screens. */
  addCounts(others: readonly TwinCounts[]): void {
    for (const { of, counts } of others) this.#census(of).addCounts(counts);
  }

  counts(): readonly TwinCounts[] {
    return [...this.#groups.values()].map(({ of, census }) => ({ of, counts: census.counts() }));
  }

  #census(of: Twins): Census {
    const key = JSON.stringify(of);
    const group = this.#groups.get(key) ?? { of, census: new Census() };
    this.#groups.set(key, group);
    return group.census;
  }

  groups(): readonly TwinGroup[] {
    return [...this.#groups.values()].map(({ of, census }) => ({
      ...of,
      screens: census.screens,
      odd: census.screens < FEWEST_TWINS ? [] : [...oddPlaces(census), ...oddLists(census)],
    }));
  }
}

function oddPlaces(census: Census): readonly OddOneOut[] {
  return census.places().flatMap(({ path, field, screens, values }) => {
    // Where only a few have the part at all, the list tells so.
    if (screens < census.screens * (1 - ODD_SHARE)) return [];
    return oddOf(path.join("/"), field, screens, values);
  });
}

function oddLists(census: Census): readonly OddOneOut[] {
  return census.lists().flatMap(({ path, field, screens, sets }) => {
    if (screens < census.screens * (1 - ODD_SHARE)) return [];
    return oddOf(path.join("/"), field, screens, sets);
  });
}

function oddOf(
  place: string,
  field: string,
  screens: number,
  values: readonly ValueCount[],
): readonly OddOneOut[] {
  const [first, ...rest] = values;
  if (first === undefined || rest.length === 0 || screens < FEWEST_TWINS) return [];
  if (screens - first.count > screens * ODD_SHARE && screens - first.count > 1) return [];
  const others = rest.map(({ value, screens: names }) => ({
    value: value ?? null,
    screens: names.toSorted(naturalOrder),
  }));
  return [{ place, field, usual: first.value ?? null, screens, others }];
}
