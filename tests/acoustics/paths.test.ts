import { describe, expect, expectTypeOf, it } from "vitest";
import {
  type AcousticConfiguration,
  acousticResponses,
  cascadeResponse,
  crossoverSections,
  equalizationResponse,
  filterSections,
  frequencyAxis,
  graphicSections,
  loudspeakerSums,
  pathFilterPhaseRad,
  pathMagnitudeDb,
  pathResponse,
} from "../../src/acoustics/index.ts";
import type { BoothkeepError } from "../../src/base/errors/index.ts";
import type { Configuration } from "../../src/model/index.ts";
import { EXAMPLE } from "./example-configuration.ts";
import { levelsDb, phaseDistance } from "./reference.ts";

const responses = acousticResponses(EXAMPLE, { unit: { latencyMs: 0.7 } });

function path(presetId: string, channelId: string, outputId: string) {
  const found = responses.paths.find(
    (p) => p.presetId === presetId && p.channelId === channelId && p.outputId === outputId,
  );
  if (found === undefined) throw new Error("no such path");
  return found;
}

describe("paths", () => {
  it("takes a whole configuration document as it is", () => {
    expectTypeOf<Configuration>().toExtend<AcousticConfiguration>();
  });

  it("lists every preset × source channel → program channel → output once, in the document's order", () => {
    const names = responses.paths.map((p) =>
      [p.presetId, p.sourceChannelId, p.channelId, p.outputId].join(" "),
    );
    expect(names).toEqual([
      "film-a server-1 L out-1",
      "film-a server-1 L out-2",
      "film-a server-1 L out-3",
      "film-a server-2 R out-3",
      "interval music-1 L out-1",
      "interval music-1 L out-2",
      "interval music-1 L out-3",
      "interval music-1 R out-3",
    ]);
  });

  it("sums all levels, all delays, and tells polarity and mute", () => {
    const p = path("film-a", "L", "out-2");
    expect(p.levelDb).toBeCloseTo(0 - 0.5 - 3 - 2 + 0 - 4, 12);
    expect(p.delayMs).toBeCloseTo(0.7 + 12 + 1.5 + 0, 12);
    expect(p.polarity).toBe("inverted");
    expect(p.muted).toBe(false);
    expect(path("film-a", "R", "out-3").muted).toBe(true);
    const outputs = [{ ...EXAMPLE.outputs[0]!, mute: true }];
    expect(acousticResponses({ ...EXAMPLE, outputs }).paths.every(({ muted }) => muted)).toBe(true);
    expect(path("film-a", "L", "out-3").levelDb).toBeCloseTo(-0.5 - 3 - 2 - 20, 12);
  });

  it("responds as the formula says, worked out section by section with complex numbers", () => {
    const p = path("film-a", "L", "out-2");
    const equalizer = EXAMPLE.equalizations[0]!.channels[0]!;
    const sections = [
      ...graphicSections(equalizer.graphic!, 48_000),
      ...equalizer.parametric!.flatMap((filter) => filterSections(filter, 48_000)),
      ...crossoverSections(EXAMPLE.outputs[1]!.highPass!, "high-pass", 48_000),
      ...EXAMPLE.outputs[1]!.filters.flatMap((filter) => filterSections(filter, 48_000)),
    ];
    const all = cascadeResponse(sections, responses.axis);
    const whole = pathResponse(p, responses.axis);
    const levels = pathMagnitudeDb(p);
    const phase = pathFilterPhaseRad(p);
    responses.axis.frequenciesHz.forEach((hz, k) => {
      const level = 10 * Math.log10(all.re[k]! ** 2 + all.im[k]! ** 2) - 9.5;
      const angle = Math.atan2(all.im[k]!, all.re[k]!);
      expect(Math.abs(levels[k]! - level)).toBeLessThan(1e-11);
      expect(phaseDistance(phase[k]!, angle)).toBeLessThan(1e-12);
      expect(Math.abs(levelsDb(whole)[k]! - level)).toBeLessThan(1e-11);
      const total = angle + Math.PI - 2 * Math.PI * hz * 0.0142;
      expect(phaseDistance(Math.atan2(whole.im[k]!, whole.re[k]!), total)).toBeLessThan(1e-9);
    });
  });

  it("computes what is shared once", () => {
    expect(path("film-a", "L", "out-1").equalization).toBe(path("film-a", "L", "out-2").equalization);
    expect(path("film-a", "L", "out-1").output).toBe(path("interval", "L", "out-1").output);
    expect(equalizationResponse(responses, "film", "L")).toBe(path("film-a", "L", "out-1").equalization);
  });

  it("lets a channel without equalizer pass unchanged", () => {
    expect(new Set(equalizationResponse(responses, "plain", "L")!.magnitudeDb)).toEqual(new Set([0]));
    expect(equalizationResponse(responses, "none", "L")).toBeUndefined();
  });

  it("adds the gains of a crossing or a mix share that is listed twice, in phase", () => {
    const preset = EXAMPLE.presets[0]!;
    const twice = acousticResponses({
      ...EXAMPLE,
      presets: [{ ...preset, routing: [preset.routing[0]!, preset.routing[0]!] }],
      outputs: [
        {
          ...EXAMPLE.outputs[0]!,
          mix: [
            { channelId: "L", gainDb: 0 },
            { channelId: "L", gainDb: 0 },
          ],
        },
      ],
    });
    expect(twice.paths).toHaveLength(1);
    expect(twice.paths[0]!.levelDb).toBeCloseTo(-6.5 + 2 * 20 * Math.log10(2), 9);
  });

  it("uses the unit's own graphic Q", () => {
    const wide = acousticResponses(EXAMPLE, { unit: { graphicQ: 0.9 } });
    const expected = cascadeResponse(
      [
        ...graphicSections(EXAMPLE.equalizations[0]!.channels[0]!.graphic!, 48_000, { q: 0.9 }),
        ...EXAMPLE.equalizations[0]!.channels[0]!.parametric!.flatMap((f) => filterSections(f, 48_000)),
      ],
      frequencyAxis(48_000),
    );
    const got = equalizationResponse(wide, "film", "L")!;
    levelsDb(expected).forEach((level, k) => {
      expect(Math.abs(level - got.magnitudeDb[k]!)).toBeLessThan(1e-11);
    });
  });

  it("convolves with an FIR and leaves it out when bypassed", () => {
    const taps = [0, 0, 0.5];
    const withFir = (enabled: boolean) =>
      acousticResponses({
        ...EXAMPLE,
        outputs: [{ ...EXAMPLE.outputs[2]!, fir: { taps, enabled } }],
      }).outputs.get("out-3")!.filters;
    expect(withFir(true).magnitudeDb.every((db) => Math.abs(db + 20 * Math.log10(2)) < 1e-12)).toBe(true);
    expect(withFir(false).magnitudeDb.every((db) => db === 0)).toBe(true);
  });
});

describe("a configuration that cannot be computed", () => {
  const broken: AcousticConfiguration = {
    ...EXAMPLE,
    equalizations: [
      {
        id: "film",
        channels: [
          { channelId: "L", parametric: [{ kind: "peaking", frequencyHz: 24_000, gainDb: 1, q: 1 }] },
        ],
      },
      EXAMPLE.equalizations[1]!,
    ],
    outputs: [
      EXAMPLE.outputs[0]!,
      { ...EXAMPLE.outputs[1]!, highPass: { family: "bessel", order: 4, frequencyHz: 800 } },
      { ...EXAMPLE.outputs[2]!, mix: [{ channelId: "Q", gainDb: 0 }] },
    ],
  };

  it("throws at the first part, with its place", () => {
    expect(() => acousticResponses(broken)).toThrow(
      expect.objectContaining({
        code: "acoustics.invalid-filter",
        place: { pointer: "/equalizations/0/channels/0/parametric/0/frequencyHz" },
      }),
    );
  });

  it("tells all and leaves their paths out when somebody listens", () => {
    const errors: BoothkeepError[] = [];
    const rest = acousticResponses(broken, { onError: (error) => errors.push(error) });
    expect(errors.map((error) => `${error.code} ${error.place.pointer}`)).toEqual([
      "acoustics.invalid-filter /equalizations/0/channels/0/parametric/0/frequencyHz",
      "acoustics.invalid-filter /outputs/1/highPass/normalization",
      "acoustics.unknown-id /outputs/2/mix/0/channelId",
    ]);
    expect(rest.paths.map((p) => `${p.presetId} ${p.channelId} ${p.outputId}`)).toEqual(["interval L out-1"]);
  });

  it("does not swallow errors of another sort", () => {
    const outputs = [
      { ...EXAMPLE.outputs[0]!, filters: undefined },
    ] as unknown as AcousticConfiguration["outputs"];
    expect(() => acousticResponses({ ...EXAMPLE, outputs }, { onError: () => {} })).toThrow(TypeError);
  });

  it("leaves out one share of a mix by itself, and sums what is left", () => {
    const mix = [...EXAMPLE.outputs[2]!.mix, { channelId: "Q", gainDb: 0 }];
    const outputs = [{ ...EXAMPLE.outputs[2]!, mix }];
    expect(() => acousticResponses({ ...EXAMPLE, outputs })).toThrow(
      expect.objectContaining({ code: "acoustics.unknown-id" }),
    );
    const rest = acousticResponses({ ...EXAMPLE, outputs }, { onError: () => {} });
    expect([...rest.outputs.get("out-3")!.mixDb]).toEqual([
      ["R", 0],
      ["L", -20],
    ]);
    expect(loudspeakerSums(rest).map((sum) => sum.channelId)).toEqual(["R", "L"]);
  });

  const preset = EXAMPLE.presets[0]!;
  const channel = EXAMPLE.channels[0]!;
  const cases: [string, Partial<AcousticConfiguration>, string, string][] = [
    [
      "a source that does not exist",
      { presets: [{ ...preset, sourceId: "x" }] },
      "unknown-id",
      "/presets/0/sourceId",
    ],
    [
      "an EQ set that does not exist",
      { presets: [{ ...preset, equalizationId: "x" }] },
      "unknown-id",
      "/presets/0/equalizationId",
    ],
    [
      "a source channel of another source",
      { presets: [{ ...preset, routing: [{ sourceChannelId: "music-1", channelId: "L", gainDb: 0 }] }] },
      "unknown-id",
      "/presets/0/routing/0/sourceChannelId",
    ],
    [
      "a program channel that does not exist",
      { presets: [{ ...preset, routing: [{ sourceChannelId: "server-1", channelId: "X", gainDb: 0 }] }] },
      "unknown-id",
      "/presets/0/routing/0/channelId",
    ],
    [
      "a level that is no number",
      { presets: [{ ...preset, levelDb: Number.NaN }] },
      "invalid-filter",
      "/presets/0/levelDb",
    ],
    [
      "a gain beyond 60 dB",
      { outputs: [{ ...EXAMPLE.outputs[0]!, gainDb: 61 }] },
      "invalid-filter",
      "/outputs/0/gainDb",
    ],
    [
      "a negative delay",
      { channels: [{ ...channel, delayMs: -1 }, EXAMPLE.channels[1]!] },
      "invalid-filter",
      "/channels/0/delayMs",
    ],
    ["a sample rate of 8 kHz", { unit: { sampleRateHz: 8000 } }, "invalid-filter", "/unit/sampleRateHz"],
  ];
  it.each(cases)("refuses %s", (_, change, code, pointer) => {
    expect(() => acousticResponses({ ...EXAMPLE, ...change })).toThrow(
      expect.objectContaining({ code: `acoustics.${code}`, place: expect.objectContaining({ pointer }) }),
    );
  });
});
