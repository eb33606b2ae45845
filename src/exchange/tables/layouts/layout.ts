import type { Configuration } from "../../../model/index.ts";

/** The tables that there are: names of sheets and files. */
export const TABLE_NAMES = [
  "inputs",
  "channels",
  "graphic-eq",
  "parametric-eq",
  "presets",
  "routing",
  "outputs",
  "output-mix",
  "output-filters",
  "loudspeakers",
  "loudspeaker-ways",
] as const;
/** A table of settings. */
export type TableName = (typeof TABLE_NAMES)[number];

/** What a column takes. */
export type Takes =
  | { readonly kind: "number" }
  /** `absent`: what counts where the configuration says nothing. */
  | { readonly kind: "yes-no"; readonly absent?: boolean }
  | { readonly kind: "choice"; readonly values: readonly string[] }
  | { readonly kind: "text" };

/** A column that holds one value of each row's item. */
export interface TableColumn {
  /** Members joined by dots inside the item: "highPass.frequencyHz". */
  readonly member: string;
  readonly takes: Takes;
  /** Whether "none" clears it. */
  readonly optional?: boolean;
  /** For a band of a graphic equalizer: its third octave (IEC 61260-1: 0 is 1 kHz). */
  readonly band?: number;
}

/** A column that only tells what a row is about. */
export interface ShownColumn {
  readonly heading: string;
  /** @param keys the keys of the row, outermost first */
  readonly of: (configuration: Configuration, keys: readonly string[]) => string;
}

/** A sort of table: one row for each item of a list. */
export interface TableLayout {
  readonly name: TableName;
  readonly title: string;
  /** Path of the list in the configuration: "equalizations[].channels[].parametric". */
  readonly list: string;
  readonly shown?: readonly ShownColumn[];
  readonly columns: readonly TableColumn[];
  /** Rows may be added; "none" in the column of this member takes a row's item out. */
  readonly growsBy?: string;
}

/**
 * Parts of an item that are there as a whole or not at all, with the member whose column says "none" where they are not
 * and takes them out.
 */
export const OPTIONAL_PARTS: Readonly<Record<string, string>> = {
  graphic: "layout",
  highPass: "family",
  lowPass: "family",
  limiter: "enabled",
};

export function number(member: string): TableColumn {
  return { member, takes: { kind: "number" } };
}

export function yesNo(member: string, absent?: boolean): TableColumn {
  return {
    member,
    takes: absent === undefined ? { kind: "yes-no" } : { kind: "yes-no", absent },
    ...(absent === undefined ? {} : { optional: true }),
  };
}

export function choice(member: string, values: readonly string[]): TableColumn {
  return { member, takes: { kind: "choice", values } };
}

export function text(member: string): TableColumn {
  return { member, takes: { kind: "text" } };
}

/** The same column, which "none" clears. */
export function optional(column: TableColumn): TableColumn {
  return { ...column, optional: true };
}
