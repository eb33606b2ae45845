import type { Loudspeaker, Way } from "../../../src/model/index.ts";

type Place = Pick<Loudspeaker, "id" | "label" | "placement"> & { readonly distanceM: number };

/** Two 15-inch lf drivers, a horn-loaded mf driver and a compression driver on a constant-directivity horn. */
export function threeWay(place: Place): Loudspeaker {
  return {
    ...head(place, "active-3", 1),
    ways: [
      way("lf", {
        safeHighPassHz: 28,
        safeHighPassOrder: 2,
        ratedPowerW: 1200,
        impedanceOhm: 4,
        sensitivityDb: 103,
      }),
      way("mf", {
        safeHighPassHz: 220,
        safeHighPassOrder: 4,
        ratedPowerW: 400,
        impedanceOhm: 8,
        sensitivityDb: 107,
      }),
      way("hf", {
        safeHighPassHz: 1250,
        safeHighPassOrder: 4,
        ratedPowerW: 110,
        impedanceOhm: 8,
        sensitivityDb: 111,
      }),
    ],
  };
}

/** Two 15-inch lf drivers and a large-format compression driver on a horn. */
export function twoWay(place: Place): Loudspeaker {
  return {
    ...head(place, "active-2", 1),
    ways: [
      way("lf", {
        safeHighPassHz: 35,
        safeHighPassOrder: 2,
        ratedPowerW: 600,
        impedanceOhm: 4,
        sensitivityDb: 100,
      }),
      way("hf", {
        safeHighPassHz: 630,
        safeHighPassOrder: 2,
        ratedPowerW: 120,
        impedanceOhm: 8,
        sensitivityDb: 110,
      }),
    ],
  };
}

/** 8-ohm boxes on one amplifier channel: two or three in parallel, four as two pairs in series. */
const IMPEDANCE_OF_BOXES: Readonly<Record<number, number>> = { 2: 4, 3: 2.7, 4: 8 };

/** Surround boxes on one amplifier channel. */
export function surroundArray(place: Place & { readonly boxes: number }): Loudspeaker {
  const { boxes, ...rest } = place;
  return {
    ...head(rest, "passive", boxes),
    ways: [
      way("full", {
        safeHighPassHz: 55,
        safeHighPassOrder: 2,
        ratedPowerW: 250 * boxes,
        impedanceOhm: IMPEDANCE_OF_BOXES[boxes]!,
        sensitivityDb: 97,
      }),
    ],
  };
}

/** Vented boxes with two 18-inch drivers each. */
export function subwoofer(place: Place & { readonly boxes: number }): Loudspeaker {
  const { boxes, ...rest } = place;
  return {
    ...head(rest, "passive", boxes),
    ways: [
      way("sub", {
        safeHighPassHz: 22,
        safeHighPassOrder: 4,
        ratedPowerW: 1600 * boxes,
        impedanceOhm: 8 / boxes,
        sensitivityDb: 101,
      }),
    ],
  };
}

function head({ id, label, placement, distanceM }: Place, drive: Loudspeaker["drive"], boxes: number) {
  return { id, label, placement, drive, boxes, distanceM };
}

function way(band: Way["band"], limits: Omit<Way, "id" | "band">): Way {
  return { id: band, band, ...limits };
}
