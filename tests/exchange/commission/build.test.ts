import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import { buildConfiguration } from "../../../src/exchange/commission/index.ts";
import {
  type Configuration,
  carriedBy,
  FORMAT_CHANNELS,
  type LoudspeakerData,
  readConfiguration,
  type ScreenDescription,
} from "../../../src/model/index.ts";
import { gridContains, limitedNumbers } from "../../../src/profile/index.ts";
import { validateConfiguration } from "../../../src/rules/index.ts";
import { described, loudspeakerData, profileNamed } from "./samples.ts";

const FITTING = [
  ["willow-arcade-1", "skarn-30"],
  ["willow-arcade-1", "skarn-36"],
  ["willow-arcade-1", "whimbrel-32"],
  ["willow-arcade-2", "skarn-30"],
  ["willow-arcade-2", "skarn-36"],
  ["willow-arcade-2", "whimbrel-32"],
  ["willow-arcade-2", "dunlin-16"],
] as const;

function build(
  name: string,
  unit: string,
  change: (description: ScreenDescription) => ScreenDescription = (same) => same,
  loudspeakers: LoudspeakerData = loudspeakerData,
) {
  const profile = profileNamed(unit);
  return buildConfiguration({ description: change(described(name, profile)), loudspeakers, profile });
}

function refused(run: () => unknown): BoothkeepError {
  try {
    run();
  } catch (error) {
    if (error instanceof BoothkeepError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

interface DistanceCase {
  readonly kind: "distanceToDelay";
  readonly distanceM: number;
  readonly temperatureC: number;
  readonly delayMs: number;
}

/** ISO 9613-1: 343.2 m/s · √(T / 293.15 K); sources in the file. */
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../reference/delay-distance.json"), "utf8"),
) as { readonly cases: readonly { readonly kind: string }[] } as {
  readonly cases: readonly (DistanceCase | { readonly kind: "speed" })[];
};

const output = ({ outputs }: Configuration, id: string) => outputs.find((item) => item.id === id)!;

describe("a first configuration", () => {
  it.each(FITTING)("of %s on %s fits its schema, its unit and the rule book", (name, unit) => {
    const { configuration, findings } = build(name, unit);
    expect(readConfiguration(JSON.stringify(configuration)).document).toEqual(configuration);
    const profile = profileNamed(unit);
    const checked = validateConfiguration(configuration, { profile });
    expect(checked).toEqual(findings);
    expect(new Set(checked.map(({ code }) => code))).toEqual(
      new Set(["level/no-limiter", "calibration/no-calibration"]),
    );
    for (const { value, grid, tolerance } of limitedNumbers(configuration, profile)) {
      expect(gridContains(grid, value, tolerance)).toBe(true);
    }
  });

  it("routes every channel of every format (SMPTE ST 428-12 groups, ISDCF Document 4 positions)", () => {
    const { configuration } = build("willow-arcade-1", "skarn-30");
    const [source] = configuration.sources;
    expect(configuration.presets.map(({ format }) => format)).toEqual(["7.1DS", "5.1", "stereo", "mono"]);
    for (const { format, routing } of configuration.presets) {
      const carried = routing.map(({ sourceChannelId }) =>
        carriedBy(source!, source!.channels.find(({ id }) => id === sourceChannelId)!, format),
      );
      for (const label of FORMAT_CHANNELS[format]) expect(carried).toContain(label);
    }
    const routes = configuration.presets[1]!.routing.filter(
      ({ sourceChannelId }) => sourceChannelId === "server-05",
    );
    expect(routes.map(({ channelId, gainDb }) => [channelId, gainDb])).toEqual([
      ["Lss", -3],
      ["Lrs", -3],
    ]);
  });

  it("delays by distance over the speed of sound (ISO 9613-1: 343.2 m/s at 20 °C)", () => {
    const { configuration } = build("willow-arcade-2", "skarn-36");
    // 10.4 m - 10.0 m is 0.4 m, or 1.1655 ms; the surrounds 5.3 m nearer: 15.443 ms and 15 ms more.
    expect(output(configuration, "center-lf").delayMs).toBeCloseTo(1.1655, 2);
    expect(output(configuration, "left-lf").delayMs).toBe(0);
    expect(configuration.channels.find(({ id }) => id === "Ls")!.delayMs).toBeCloseTo(30.443, 2);
    expect(output(configuration, "surround-left").delayMs).toBe(0);
  });

  it("delays as the reference table has them (tests/reference/delay-distance.json), for every distance and temperature", () => {
    const cases = reference.cases.filter(
      (item): item is DistanceCase =>
        item.kind === "distanceToDelay" && item.distanceM > 0 && item.distanceM <= 60,
    );
    expect(cases.length).toBeGreaterThan(3);
    for (const { distanceM, temperatureC, delayMs } of cases) {
      // The center stands nearer by the distance of the case, the surrounds by the same and 15 ms later.
      const { configuration } = build("willow-arcade-2", "skarn-36", (description) => ({
        ...description,
        screen: { ...description.screen, temperatureC },
        surroundAfterMs: 15,
        screenLoudspeakers: {
          ...description.screenLoudspeakers,
          distancesM: { left: 1 + distanceM, center: 1, right: 1 + distanceM },
        },
        subwoofers: description.subwoofers.map((sub) => ({ ...sub, distanceM: 1 + distanceM })),
        surroundArrays: description.surroundArrays.map((array) => ({ ...array, distanceM: 1 })),
      }));
      // Steps of this unit: 0.005 ms.
      expect(
        output(configuration, "center-lf").delayMs - output(configuration, "left-lf").delayMs,
      ).toBeCloseTo(delayMs, 2);
      expect(configuration.channels.find(({ id }) => id === "Ls")!.delayMs).toBeCloseTo(delayMs + 15, 2);
    }
  });

  it("is slower in cold air", () => {
    const at = (temperatureC: number) =>
      output(
        build("willow-arcade-2", "skarn-36", (description) => ({
          ...description,
          screen: { ...description.screen, temperatureC },
        })).configuration,
        "center-lf",
      ).delayMs;
    expect(at(0)).toBeGreaterThan(at(30));
  });

  it("levels by sensitivity: 10 dB more sensitive, 10 dB less gain; nothing above 0 dB", () => {
    const { configuration } = build("willow-arcade-2", "skarn-36");
    const gap = output(configuration, "left-lf").gainDb - output(configuration, "left-hf").gainDb;
    expect(gap).toBeCloseTo(10, 6);
    const gains = configuration.outputs.map(({ gainDb }) => gainDb);
    expect(Math.max(...gains)).toBe(0);
  });

  it("levels as computed by hand: sensitivity, distance, boxes and arrays together", () => {
    // lf 100 dB, hf 110 dB, surround and sub by the sample data; all at 10 m but the surrounds at 5 m.
    const { configuration } = build("willow-arcade-2", "skarn-36", (description) => ({
      ...description,
      screenLoudspeakers: {
        ...description.screenLoudspeakers,
        distancesM: { left: 10, center: 10, right: 10 },
      },
      subwoofers: [{ model: "sub-large", boxes: 2, distanceM: 10 }],
      surroundArrays: description.surroundArrays.map((array) => ({ ...array, boxes: 4, distanceM: 5 })),
    }));
    const sensitivityDb = (id: string) =>
      loudspeakerData.models.find((model) => model.id === id)!.ways[0]!.sensitivityDb;
    // Against one lf way at 10 m: 6.0206 dB nearer, four boxes 10·lg 4 = 6.0206 dB, wanted 3 dB lower (SMPTE RP 200).
    const surround = -6.0206 - 6.0206 - 3 + (100 - sensitivityDb("surround-small"));
    // Two boxes in phase 20·lg 2 = 6.0206 dB; LFE 10 dB up in its band.
    const sub = -6.0206 + 10 + (100 - sensitivityDb("sub-large"));
    const lf = output(configuration, "left-lf").gainDb;
    expect(output(configuration, "surround-left").gainDb - lf).toBeCloseTo(surround, 1);
    expect(output(configuration, "sub-1").gainDb - lf).toBeCloseTo(sub, 1);
    expect(output(configuration, "left-hf").gainDb - lf).toBeCloseTo(-10, 6);
  });

  it("turns over the upper way where that sums flatter: Linkwitz-Riley 2 yes, 4 no (S. H. Linkwitz, JAES 1976)", () => {
    const withOrder = (order: number): LoudspeakerData => ({
      ...loudspeakerData,
      models: loudspeakerData.models.map((model) =>
        model.id === "two-way-medium"
          ? {
              ...model,
              ways: model.ways.map((way) =>
                way.splitAbove === undefined
                  ? way
                  : {
                      ...way,
                      splitAbove: [{ family: "linkwitz-riley", order, frequencyHz: 800 } as const],
                    },
              ),
            }
          : model,
      ),
    });
    const polarity = (order: number) =>
      output(build("willow-arcade-2", "skarn-36", (same) => same, withOrder(order)).configuration, "left-hf")
        .polarity;
    expect(polarity(2)).toBe("inverted");
    expect(polarity(4)).toBe("normal");
  });

  it("never sets a high-pass below the safe frequency, however the unit's steps lie", () => {
    for (const [name, unit] of FITTING) {
      const { configuration } = build(name, unit);
      for (const { feeds, highPass } of configuration.outputs) {
        if (feeds.kind !== "loudspeaker") continue;
        const way = configuration.loudspeakers
          .find(({ id }) => id === feeds.loudspeakerId)!
          .ways.find(({ id }) => id === feeds.wayId)!;
        expect(highPass!.frequencyHz).toBeGreaterThanOrEqual(way.safeHighPassHz!);
        expect(highPass!.order).toBeGreaterThanOrEqual(way.safeHighPassOrder!);
      }
    }
  });

  it("goes up to the unit's next step where the nearest one lies below the safe frequency", () => {
    // Steps of this unit around 820 Hz: 800 and 900. The nearer one is unsafe for a driver that asks for 810.
    const data: LoudspeakerData = {
      ...loudspeakerData,
      models: loudspeakerData.models.map((model) => ({
        ...model,
        ways: model.ways.map((way) => ({
          ...way,
          ...(way.band === "hf" ? { safeHighPassHz: 810 } : {}),
          ...(way.splitAbove === undefined
            ? {}
            : { splitAbove: [{ family: "linkwitz-riley", order: 4, frequencyHz: 820 } as const] }),
        })),
      })),
    };
    const { configuration } = build("willow-arcade-2", "dunlin-16", (same) => same, data);
    expect(output(configuration, "left-hf").highPass!.frequencyHz).toBe(900);
    expect(output(configuration, "left-lf").lowPass!.frequencyHz).toBe(900);
  });

  it("plays five screen channels and folds Lc and Rc nowhere", () => {
    const { configuration } = build("willow-arcade-1", "skarn-36", (description) => ({
      ...description,
      formats: ["7.1DS", "7.1SDS"],
      screenLoudspeakers: {
        ...description.screenLoudspeakers,
        channels: 5,
        distancesM: { left: 15, leftCenter: 14.8, center: 14.6, rightCenter: 14.8, right: 15 },
      },
    }));
    const routed = configuration.presets[1]!.routing.map(({ channelId }) => channelId);
    expect(routed).toEqual(expect.arrayContaining(["Lc", "Rc", "Lss", "Lrs"]));
    expect(output(configuration, "left-center-hf").mix).toEqual([{ channelId: "Lc", gainDb: 0 }]);
  });
});

describe("what does not fit is refused with a next step", () => {
  const refusals: readonly (readonly [string, string, () => unknown])[] = [
    [
      "a format that the unit's inputs cannot carry",
      "commission.does-not-fit",
      () => build("willow-arcade-1", "dunlin-16"),
    ],
    [
      "more outputs than the unit has",
      "commission.does-not-fit",
      () =>
        build("willow-arcade-2", "dunlin-16", (d) => ({
          ...d,
          surroundArrays: Array.from({ length: 9 }, () => d.surroundArrays[0]!).concat(d.surroundArrays),
        })),
    ],
    [
      "an auditorium's format without its arrays",
      "commission.does-not-fit",
      () => build("willow-arcade-2", "skarn-30", (d) => ({ ...d, formats: ["7.1DS"] })),
    ],
    [
      "an array that no channel plays",
      "commission.does-not-fit",
      () => build("willow-arcade-1", "skarn-30", (d) => ({ ...d, formats: ["stereo"] })),
    ],
    [
      "another drive than the data's",
      "commission.other-drive",
      () =>
        build("willow-arcade-1", "skarn-30", (d) => ({
          ...d,
          screenLoudspeakers: { ...d.screenLoudspeakers, drive: "passive" },
        })),
    ],
    [
      "a model without data",
      "commission.unknown-model",
      () =>
        build("willow-arcade-1", "skarn-30", (d) => ({
          ...d,
          subwoofers: [{ ...d.subwoofers[0]!, model: "sub-huge" }],
        })),
    ],
    [
      "a delay beyond the unit's reach",
      "commission.does-not-fit",
      () =>
        build("willow-arcade-2", "dunlin-16", (d) => ({
          ...d,
          screen: { ...d.screen, videoLatencyMs: 900 },
        })),
    ],
    [
      "a mute on a contact that is not there",
      "commission.against-rules",
      () =>
        build("willow-arcade-2", "dunlin-16", (d) => ({
          ...d,
          emergencyMute: { connectorId: "contact-99", activeWhen: "open" },
        })),
    ],
  ];

  it.each(refusals)("%s", (_what, code, run) => {
    const error = refused(run);
    expect(error.code).toBe(code);
    expect(error.next).toMatch(/^[A-Z].*\.$/s);
    expect(Object.keys(error.place).length).toBeGreaterThan(0);
  });

  it("a crossover that the unit cannot run", () => {
    const error = refused(() =>
      build("willow-arcade-2", "dunlin-16", (same) => same, {
        ...loudspeakerData,
        models: loudspeakerData.models.map((model) => ({
          ...model,
          ways: model.ways.map((way) =>
            way.splitAbove === undefined
              ? way
              : { ...way, splitAbove: [{ family: "linkwitz-riley", order: 8, frequencyHz: 800 } as const] },
          ),
        })),
      }),
    );
    expect(error.code).toBe("commission.no-crossover");
  });
});
