import type { EqBand, FilterAbility, GraphicAbility, GraphicEq } from "../../model/index.ts";

/** A filter without its key: equal filters are equal whatever they are called. */
export type RefitFilter = EqBand extends infer B
  ? B extends EqBand
    ? Omit<B, "id" | "enabled">
    : never
  : never;

/** The active part of an equalizer whose response is to be had again: peaking filters, shelves, a graphic. */
export interface RefitSource {
  readonly sampleRateHz: number;
  readonly graphic?: Pick<GraphicEq, "layout" | "gainsDb">;
  /** Q of the graphic's bands. @defaultValue the layout's own */
  readonly graphicQ?: number;
  readonly filters: readonly RefitFilter[];
}

/** What there is to do it with. */
export interface RefitTarget {
  readonly sampleRateHz: number;
  readonly graphic?: GraphicAbility;
  readonly filters?: FilterAbility;
}

/** How hard a refit tries, and what is close enough. */
export interface RefitOptions {
  /** How long to search. @defaultValue "thorough" */
  readonly effort?: "quick" | "thorough";
  /** With how little error fewer bands will do. @defaultValue rms 0.05 dB and at most 0.2 dB anywhere */
  readonly tolerance?: { readonly rmsDb: number; readonly maxDb: number };
  /**
   * Weight of 20 to 40 Hz and of 16 to 20 kHz in the search, against 1 between. A small one keeps filters from doing
   * outside the compared band what nobody asked for, and with the level above it the phase below; the errors told are
   * those of the compared band. @defaultValue 0
   */
  readonly weightOutside?: number;
}

/** An equalizer with nearly the same response. */
export interface Refit {
  readonly graphic?: Pick<GraphicEq, "layout" | "gainsDb">;
  readonly filters: readonly RefitFilter[];
  /** copied: the same settings; rounded: the same filters on the unit's steps; refitted: other filters. */
  readonly method: "copied" | "rounded" | "refitted";
  /** Error over 40 Hz to 16 kHz, every fraction of an octave alike, in dB. */
  readonly rmsDb: number;
  readonly maxDb: number;
  readonly maxAtHz: number;
}
