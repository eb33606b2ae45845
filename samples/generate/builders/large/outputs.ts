import type { ChannelLabel, Output } from "../../../../src/model/index.ts";
import { delayToArrive } from "../arrival.ts";
import { crossover } from "../crossovers.ts";
import { feedOutputs, HEADSET_LIMITER } from "../feeds.ts";
import { bell, highShelf, lowShelf } from "../filters.ts";
import { activeOutputs, limiterAt, singleOutput, spareOutputs, type WaySetting } from "../outputs.ts";
import { LARGE_CHANNELS, type LargeAuditorium } from "./description.ts";

const OUTPUTS = 30;

/** Every output of the unit: the ways of the loudspeakers, the feeds, the spares. */
export function largeOutputs(hall: LargeAuditorium): Output[] {
  const connected = [
    ...screenOutputs(hall, { id: "left", label: "Left", channel: "L", connector: 1, trimDb: -0.2 }),
    ...screenOutputs(hall, { id: "center", label: "Center", channel: "C", connector: 5, trimDb: 0 }),
    ...screenOutputs(hall, { id: "right", label: "Right", channel: "R", connector: 9, trimDb: 0.1 }),
    ...subOutputs(hall),
    ...surroundOutputs(hall),
    ...feedOutputs({
      connectors: [25, 26, 27],
      labels: ["HI transmitter", "VIN transmitter", "Booth monitor"],
      monitored: LARGE_CHANNELS.filter((label) => label !== "HI" && label !== "VIN"),
      limiters: { headset: HEADSET_LIMITER, monitor: limiterAt(-12, 5, 200) },
    }),
  ];
  return [...connected, ...spareOutputs(OUTPUTS, connected)];
}

function screenOutputs(
  hall: LargeAuditorium,
  place: {
    readonly id: string;
    readonly label: string;
    readonly channel: ChannelLabel;
    readonly connector: number;
    readonly trimDb: number;
  },
): Output[] {
  const { lf, mf, hf } = hall.trimsDb;
  const ways: readonly WaySetting[] = [
    {
      wayId: "lf",
      gainDb: lf,
      alignMs: 0.62,
      filters: [bell(48, 1.5, 1.4), bell(165, -2.2, 2)],
      limiter: limiterAt(-4, 10, 200),
    },
    {
      wayId: "mf",
      gainDb: mf,
      alignMs: 0.21,
      filters: [bell(430, -1.8, 1.2), bell(780, -2.6, 2.5), bell(1350, 1.2, 2)],
      limiter: limiterAt(-6, 2, 100),
    },
    {
      wayId: "hf",
      gainDb: hf,
      alignMs: 0,
      filters: [
        bell(1900, -2.4, 1.8),
        bell(3600, -1.5, 3),
        highShelf(6300, 5.5, { q: 0.6 }),
        bell(12500, 2, 2.5),
      ],
      limiter: limiterAt(-9, 0.5, 50),
    },
  ];
  return activeOutputs({
    loudspeakerId: place.id,
    label: place.label,
    channel: place.channel,
    firstConnector: place.connector,
    protection: crossover("butterworth", 4, 30),
    splits: hall.splits,
    ways,
    trimDb: place.trimDb,
  });
}

function subOutputs({ distancesM, screen }: LargeAuditorium): Output[] {
  return distancesM.subs.map((nearM, index) => {
    const number = index + 1;
    return singleOutput({
      id: `sub-${number}`,
      label: `Sub ${number}`,
      connector: 12 + number,
      feeds: { kind: "loudspeaker", loudspeakerId: `sub-${number}`, wayId: "sub" },
      mix: [{ channelId: "LFE", gainDb: 0 }],
      highPass: crossover("butterworth", 6, 24),
      lowPass: crossover("linkwitz-riley", 4, 120),
      filters: [bell(29, 2, 1.6), bell(52, -3.5, 4)],
      gainDb: -10,
      delayMs: delayToArrive({
        farM: distancesM.center,
        nearM,
        afterMs: 0,
        temperatureC: screen.temperatureC,
      }),
      limiter: limiterAt(-3, 20, 500),
    });
  });
}

function surroundOutputs(hall: LargeAuditorium): Output[] {
  const { side, rear } = hall.distancesM;
  /** Holds the nearer half of an array back until the farther one arrives. */
  const together = (halves: readonly [number, number], nearM: number) =>
    delayToArrive({ farM: Math.max(...halves), nearM, afterMs: 0, temperatureC: hall.screen.temperatureC });
  const output = (
    id: string,
    label: string,
    channel: ChannelLabel,
    connector: number,
    gainDb: number,
    delayMs: number,
  ) =>
    singleOutput({
      id,
      label,
      connector,
      feeds: { kind: "loudspeaker", loudspeakerId: id, wayId: "full" },
      mix: [{ channelId: channel, gainDb: 0 }],
      highPass: crossover("butterworth", 2, 63),
      filters: [lowShelf(125, 1.5, { q: 0.7 }), bell(2800, -1.5, 1.6), highShelf(10000, 1.5, { q: 0.7 })],
      gainDb,
      delayMs,
      limiter: limiterAt(-6, 5, 200),
    });
  return [
    output("lss-front", "Lss front", "Lss", 17, -12.4, together(side, side[0])),
    output("lss-rear", "Lss rear", "Lss", 18, -13.2, together(side, side[1])),
    output("rss-front", "Rss front", "Rss", 19, -12.2, together(side, side[0])),
    output("rss-rear", "Rss rear", "Rss", 20, -13.1, together(side, side[1])),
    output("lrs-inner", "Lrs inner", "Lrs", 21, -12.6, together(rear, rear[0])),
    output("lrs-outer", "Lrs outer", "Lrs", 22, -11.8, together(rear, rear[1])),
    output("rrs-inner", "Rrs inner", "Rrs", 23, -12.5, together(rear, rear[0])),
    output("rrs-outer", "Rrs outer", "Rrs", 24, -11.9, together(rear, rear[1])),
  ];
}
