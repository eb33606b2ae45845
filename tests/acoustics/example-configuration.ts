import type { AcousticConfiguration, AcousticOutput, CrossoverHalf } from "../../src/acoustics/index.ts";

export function crossover(
  family: CrossoverHalf["family"],
  order: number,
  frequencyHz: number,
): CrossoverHalf {
  return { family, order, frequencyHz };
}

export function output(
  id: string,
  [loudspeakerId, wayId]: readonly [string, string],
  rest: Partial<AcousticOutput> = {},
): AcousticOutput {
  return {
    id,
    feeds: { kind: "loudspeaker", loudspeakerId, wayId },
    mix: [{ channelId: "L", gainDb: 0 }],
    filters: [],
    gainDb: 0,
    delayMs: 0,
    polarity: "normal",
    mute: false,
    ...rest,
  };
}

/** An invented auditorium, as small as it can be: two sources, two program channels, two presets, a two-way loudspeaker. */
export const EXAMPLE: AcousticConfiguration = {
  unit: { sampleRateHz: 48_000 },
  sources: [
    {
      id: "server",
      channels: [
        { id: "server-1", gainDb: 0 },
        { id: "server-2", gainDb: -1 },
      ],
    },
    { id: "music", channels: [{ id: "music-1", gainDb: 2 }] },
  ],
  channels: [
    { id: "L", levelDb: -2, delayMs: 1.5, mute: false },
    { id: "R", levelDb: -2.5, delayMs: 1.25, mute: true },
  ],
  equalizations: [
    {
      id: "film",
      channels: [
        {
          channelId: "L",
          graphic: { layout: "octave-10", gainsDb: [0, 1, 0, -2, 0, 0, 3, 0, 0, -1] },
          parametric: [
            { kind: "peaking", frequencyHz: 140, gainDb: -4, q: 5, id: "b1" },
            { kind: "high-shelf", frequencyHz: 9000, gainDb: 2, slope: 0.8, id: "b2" },
          ],
        },
      ],
    },
    { id: "plain", channels: [] },
  ],
  presets: [
    {
      id: "film-a",
      sourceId: "server",
      equalizationId: "film",
      levelDb: -3,
      delayMs: 12,
      routing: [
        { sourceChannelId: "server-1", channelId: "L", gainDb: -0.5 },
        { sourceChannelId: "server-2", channelId: "R", gainDb: 0 },
      ],
    },
    {
      id: "interval",
      sourceId: "music",
      equalizationId: "plain",
      levelDb: -10,
      delayMs: 0,
      routing: [
        { sourceChannelId: "music-1", channelId: "L", gainDb: 0 },
        { sourceChannelId: "music-1", channelId: "R", gainDb: 0 },
      ],
    },
  ],
  outputs: [
    output("out-1", ["screen-left", "lf"], {
      lowPass: crossover("linkwitz-riley", 4, 800),
      highPass: crossover("butterworth", 2, 30),
      gainDb: -1,
      delayMs: 0.2,
    }),
    output("out-2", ["screen-left", "hf"], {
      highPass: crossover("linkwitz-riley", 4, 800),
      filters: [{ kind: "high-shelf", frequencyHz: 8000, gainDb: 6, q: 0.7, id: "h1" }],
      polarity: "inverted",
      gainDb: -4,
      delayMs: 0,
    }),
    output("out-3", ["screen-right", "full"], {
      mix: [
        { channelId: "R", gainDb: 0 },
        { channelId: "L", gainDb: -20 },
      ],
    }),
  ],
  loudspeakers: [
    { id: "screen-left", ways: [{ id: "lf" }, { id: "hf" }] },
    { id: "screen-right", ways: [{ id: "full" }] },
  ],
};
