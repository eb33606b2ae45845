import { defaultGraphicQ, graphicCentersHz } from "../../acoustics/index.ts";
import { type BandOffer, insideBox } from "./band-offer.ts";
import type { RefitFilter, RefitSource } from "./equalizer.ts";
import type { Section, SectionKind } from "./section-response.ts";

/** A shelf that a bank of peaking filters has to do: one broad peak, this far (in ln f) towards the shelf's side. */
const SHELF_AS_PEAK_SHIFT = 0.7;
const SHELF_AS_PEAK_Q = 0.5;

/** The active bands of a source as sections that the offer knows: where a search may start. */
export function sourceSections(source: RefitSource, offer: BandOffer): readonly Section[] {
  const graphic = source.graphic;
  const bands =
    graphic === undefined
      ? []
      : graphicCentersHz(graphic.layout).map((centerHz, band): Section => {
          const q = source.graphicQ ?? defaultGraphicQ(graphic.layout);
          return peak(Math.log(centerHz), graphic.gainsDb[band]!, q);
        });
  return [...bands, ...source.filters.flatMap((filter) => asSection(filter, offer))].flatMap((section) => {
    const offered = offer.find(({ kind }) => kind === section.kind);
    return offered === undefined || section.gainDb === 0 ? [] : [insideBox(section, offered.box)];
  });
}

function peak(lnF: number, gainDb: number, q: number): Section {
  return { kind: "peaking", bySlope: false, lnF, gainDb, lnShape: Math.log(q) };
}

function asSection(filter: RefitFilter, offer: BandOffer): readonly Section[] {
  if (filter.kind === "peaking") return [peak(Math.log(filter.frequencyHz), filter.gainDb, filter.q)];
  if (filter.kind !== "low-shelf" && filter.kind !== "high-shelf") return [];
  const lnF = Math.log(filter.frequencyHz);
  const offered = offer.find(({ kind }) => kind === filter.kind);
  if (offered === undefined) {
    const shift = filter.kind === "low-shelf" ? -SHELF_AS_PEAK_SHIFT : SHELF_AS_PEAK_SHIFT;
    return [peak(lnF + shift, filter.gainDb, SHELF_AS_PEAK_Q)];
  }
  const shape = offered.bySlope ? slopeOf(filter) : qOf(filter);
  const kind: SectionKind = filter.kind;
  return [{ kind, bySlope: offered.bySlope, lnF, gainDb: filter.gainDb, lnShape: Math.log(shape) }];
}

interface Shelf {
  readonly gainDb: number;
  readonly q?: number;
  readonly slope?: number;
}

/** 1/Q² = (A + 1/A)(1/S − 1) + 2 (Audio EQ Cookbook, W3C Working Group Note, 8 June 2021). */
function qOf({ gainDb, q, slope }: Shelf): number {
  if (q !== undefined) return q;
  const A = 10 ** (gainDb / 40);
  return 1 / Math.sqrt(Math.max((A + 1 / A) * (1 / slope! - 1) + 2, 1e-3));
}

function slopeOf({ gainDb, q, slope }: Shelf): number {
  if (slope !== undefined) return slope;
  const A = 10 ** (gainDb / 40);
  return 1 / Math.max((1 / (q! * q!) - 2) / (A + 1 / A) + 1, 1e-3);
}
