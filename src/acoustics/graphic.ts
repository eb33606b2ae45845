import { thirdOctaveCenterHz } from "./band-frequencies.ts";
import { peaking } from "./filters/peaking.ts";
import { checkFilterFrequency, checkNumber, invalidSetting, type SettingPlace } from "./limits.ts";
import type { Section } from "./section.ts";

interface Layout {
  /** Third-octave index of the first and the last band (0 is 1 kHz), and how many third octaves lie between two bands. */
  readonly first: number;
  readonly last: number;
  readonly step: number;
}

/** Every arrangement of graphic bands. A new one is a line here. */
const LAYOUTS = {
  /** 40 Hz to 16 kHz. */
  "third-octave-27": { first: -14, last: 12, step: 1 },
  /** 20 Hz to 20 kHz. */
  "third-octave-31": { first: -17, last: 13, step: 1 },
  /** 25 Hz to 16 kHz. */
  "two-thirds-octave-15": { first: -16, last: 12, step: 2 },
  /** 31.5 Hz to 16 kHz. */
  "octave-10": { first: -15, last: 12, step: 3 },
} as const satisfies Record<string, Layout>;

/** An arrangement of graphic bands: how many, and how far apart. */
export type GraphicLayoutName = keyof typeof LAYOUTS;

/** The name of every layout, in the order of the list. */
export const GRAPHIC_LAYOUTS = Object.keys(LAYOUTS) as readonly GraphicLayoutName[];

/** A graphic equalizer's sliders. */
export interface GraphicEqualizer {
  readonly layout: GraphicLayoutName;
  /** One gain a band in dB, −60 to 60, from the lowest band up. */
  readonly gainsDb: readonly number[];
  /** false: bypassed. @defaultValue true */
  readonly enabled?: boolean | undefined;
}

/** The third-octave index of every band of a layout (IEC 61260-1: 0 is 1 kHz). */
export function graphicBandIndices(layout: GraphicLayoutName): readonly number[] {
  const { first, last, step } = LAYOUTS[layout];
  return Array.from({ length: (last - first) / step + 1 }, (_, k) => first + k * step);
}

/** The exact base-ten mid-band frequencies of a layout in Hz. Source: IEC 61260-1:2014, equations 1 and 2. */
export function graphicCentersHz(layout: GraphicLayoutName): readonly number[] {
  return graphicBandIndices(layout).map(thirdOctaveCenterHz);
}

/**
 * The Q of a band as wide as the layout's spacing: 1/(2·sinh(ln 2/2 · octaves)), 4.318 for a third octave, 2.145 for two
 * thirds, 1.414 for an octave. The Cookbook's 1/Q = 2·sinh(ln 2/2 · BW) for the analogue prototype; plain Q, no
 * narrowing towards half the sample rate.
 */
export function defaultGraphicQ(layout: GraphicLayoutName): number {
  return 1 / (2 * Math.sinh(((Math.LN2 / 2) * LAYOUTS[layout].step) / 3));
}

/** How the bands of a graphic equalizer are computed. */
export interface GraphicOptions {
  /** Q of every band. @defaultValue {@link defaultGraphicQ} of the layout */
  readonly q?: number | undefined;
  /** JSON Pointer of the graphic equalizer, for errors. */
  readonly place?: SettingPlace;
}

/**
 * The sections of a graphic equalizer: one peaking section a band, in cascade; none when it is bypassed. Bands at 0 dB
 * have no effect and give no section.
 *
 * @throws BoothkeepError `acoustics.invalid-filter`: an unknown layout, another count of gains than bands, a gain beyond
 *   ±60 dB, a band that is not at 0 dB at or above half the sample rate.
 * @example
 * graphicSections({ layout: "octave-10", gainsDb: [0, 0, 0, -2, 0, 0, 0, 0, 0, 1.5] }, 48_000);
 */
export function graphicSections(
  { layout, gainsDb, enabled }: GraphicEqualizer,
  sampleRateHz: number,
  { q, place = "" }: GraphicOptions = {},
): readonly Section[] {
  if (enabled === false) return [];
  if (!Object.hasOwn(LAYOUTS, layout)) {
    throw invalidSetting(`There is no graphic layout '${layout}'.`, `${place}/layout`);
  }
  const centersHz = graphicCentersHz(layout);
  if (gainsDb.length !== centersHz.length) {
    throw invalidSetting(
      `${layout} has ${centersHz.length} bands, not ${gainsDb.length}.`,
      `${place}/gainsDb`,
      { value: gainsDb.length, bands: centersHz.length },
    );
  }
  const bandQ = q ?? defaultGraphicQ(layout);
  checkNumber("q", bandQ, place);
  return centersHz.flatMap((frequencyHz, band) => {
    const gainDb = gainsDb[band]!;
    const bandPlace = `${place}/gainsDb/${band}`;
    checkNumber("gainDb", gainDb, bandPlace);
    if (gainDb === 0) return [];
    checkFilterFrequency(frequencyHz, sampleRateHz, bandPlace);
    return peaking.sections({ kind: "peaking", frequencyHz, gainDb, q: bandQ }, sampleRateHz);
  });
}
