import type { ChannelLabel, Loudspeaker, Output } from "../../../src/model/index.ts";
import { delayToArrive } from "../builders/arrival.ts";
import { crossover } from "../builders/crossovers.ts";
import { feedOutputs, HEADSET_LIMITER } from "../builders/feeds.ts";
import { bell, highShelf } from "../builders/filters.ts";
import { subwoofer, surroundArray, twoWay } from "../builders/loudspeakers.ts";
import { activeOutputs, limiterAt, singleOutput } from "../builders/outputs.ts";

export const CHANNELS: readonly ChannelLabel[] = ["L", "R", "C", "LFE", "Ls", "Rs", "Lc", "Rc", "HI", "VIN"];
export const TEMPERATURE_C = 20;

/** Distances from the reference seat to the nearest cabinet. */
export const DISTANCES_M = {
  outer: 18.2,
  inner: 17.6,
  center: 17.4,
  subs: 17.2,
  front: 9.9,
  rear: 9.3,
} as const;

/** Five screen loudspeakers of two ways, two subwoofers, two surround arrays in halves. */
export const LOUDSPEAKERS: readonly Loudspeaker[] = [
  twoWay({ id: "left", label: "Screen left", placement: "screen-left", distanceM: DISTANCES_M.outer }),
  twoWay({
    id: "left-center",
    label: "Screen left center",
    placement: "screen-left-center",
    distanceM: DISTANCES_M.inner,
  }),
  twoWay({ id: "center", label: "Screen center", placement: "screen-center", distanceM: DISTANCES_M.center }),
  twoWay({
    id: "right-center",
    label: "Screen right center",
    placement: "screen-right-center",
    distanceM: DISTANCES_M.inner,
  }),
  twoWay({ id: "right", label: "Screen right", placement: "screen-right", distanceM: DISTANCES_M.outer }),
  subwoofer({
    id: "sub-1",
    label: "Sub left",
    placement: "subwoofer",
    distanceM: DISTANCES_M.subs,
    boxes: 1,
  }),
  subwoofer({
    id: "sub-2",
    label: "Sub right",
    placement: "subwoofer",
    distanceM: DISTANCES_M.subs,
    boxes: 1,
  }),
  ...(["left", "right"] as const).flatMap((hand) =>
    (["front", "rear"] as const).map((half) =>
      surroundArray({
        id: `${hand === "left" ? "ls" : "rs"}-${half}`,
        label: `${hand === "left" ? "Left" : "Right"} surrounds, ${half} half`,
        placement: `surround-${hand}`,
        distanceM: DISTANCES_M[half],
        boxes: 4,
      }),
    ),
  ),
];

/** An alignment of 12 dB per octave from older days: the hf way of a Linkwitz-Riley of order 2 is inverted. */
function screenOutputs(
  loudspeakerId: string,
  label: string,
  channel: ChannelLabel,
  firstConnector: number,
): Output[] {
  return activeOutputs({
    loudspeakerId,
    label,
    channel,
    firstConnector,
    protection: crossover("butterworth", 4, 35),
    splits: [crossover("linkwitz-riley", 2, 1000)],
    ways: [
      {
        wayId: "lf",
        gainDb: -7.5,
        alignMs: 0.25,
        filters: [bell(55, 1.2, 1.6), bell(180, -2.1, 2.2), bell(640, -1.6, 1.4)],
        limiter: limiterAt(-4.5, 10, 200),
      },
      {
        wayId: "hf",
        gainDb: -15.5,
        alignMs: 0,
        filters: [bell(1400, -2.3, 1.6), bell(4200, -1.4, 2.8), highShelf(6500, 5.2, { q: 0.6 })],
        limiter: limiterAt(-9, 0.5, 50),
      },
    ],
  });
}

function surroundOutput(
  id: string,
  label: string,
  channel: ChannelLabel,
  connector: number,
  half: "front" | "rear",
) {
  return singleOutput({
    id,
    label,
    connector,
    feeds: { kind: "loudspeaker", loudspeakerId: id, wayId: "full" },
    mix: [{ channelId: channel, gainDb: 0 }],
    highPass: crossover("butterworth", 2, 75),
    filters: [bell(3000, -1.2, 1.6), highShelf(10000, 1.4, { q: 0.7 })],
    gainDb: half === "front" ? -12.5 : -13.25,
    delayMs: delayToArrive({
      farM: DISTANCES_M.front,
      nearM: DISTANCES_M[half],
      afterMs: 0,
      temperatureC: TEMPERATURE_C,
    }),
    limiter: limiterAt(-6, 5, 200),
  });
}

function subOutput(number: number): Output {
  return singleOutput({
    id: `sub-${number}`,
    label: `Sub ${number}`,
    connector: 12 + number,
    feeds: { kind: "loudspeaker", loudspeakerId: `sub-${number}`, wayId: "sub" },
    mix: [{ channelId: "LFE", gainDb: 0 }],
    highPass: crossover("butterworth", 4, 24),
    lowPass: crossover("linkwitz-riley", 4, 120),
    filters: [bell(48, -3.2, 4)],
    gainDb: -7,
    delayMs: delayToArrive({
      farM: DISTANCES_M.center,
      nearM: DISTANCES_M.subs,
      afterMs: 0,
      temperatureC: TEMPERATURE_C,
    }),
    limiter: limiterAt(-3, 20, 500),
  });
}

/** Every output that something is connected to. */
export function connectedOutputs(): Output[] {
  return [
    ...screenOutputs("left", "Left", "L", 1),
    ...screenOutputs("left-center", "L-center", "Lc", 3),
    ...screenOutputs("center", "Center", "C", 5),
    ...screenOutputs("right-center", "R-center", "Rc", 7),
    ...screenOutputs("right", "Right", "R", 9),
    subOutput(1),
    subOutput(2),
    surroundOutput("ls-front", "Ls front", "Ls", 17, "front"),
    surroundOutput("ls-rear", "Ls rear", "Ls", 18, "rear"),
    surroundOutput("rs-front", "Rs front", "Rs", 19, "front"),
    surroundOutput("rs-rear", "Rs rear", "Rs", 20, "rear"),
    ...feedOutputs({
      connectors: [29, 30, 31],
      labels: ["HI", "VIN", "Monitor"],
      monitored: CHANNELS.filter((label) => label !== "HI" && label !== "VIN"),
      limiters: { headset: HEADSET_LIMITER, monitor: limiterAt(-12, 5, 200) },
    }),
  ];
}
