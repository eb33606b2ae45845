import { describe, expect, it } from "vitest";
import { acousticResponses, outputHeadrooms } from "../../src/acoustics/index.ts";
import { EXAMPLE, output } from "./example-configuration.ts";

describe("headroom of outputs", () => {
  const plain = EXAMPLE.presets[1]!;

  it("is the largest magnitude of the loudest source channel, and of all of them in phase", () => {
    const responses = acousticResponses({
      ...EXAMPLE,
      channels: [
        { id: "L", levelDb: 0, delayMs: 0, mute: false },
        { id: "R", levelDb: 0, delayMs: 7, mute: false },
      ],
      presets: [
        {
          ...plain,
          sourceId: "server",
          levelDb: 0,
          routing: [
            { sourceChannelId: "server-1", channelId: "L", gainDb: -6 },
            { sourceChannelId: "server-2", channelId: "R", gainDb: 0 },
          ],
        },
      ],
      outputs: [
        output("out-1", ["screen-left", "lf"], {
          mix: [
            { channelId: "L", gainDb: 0 },
            { channelId: "R", gainDb: 0 },
          ],
          filters: [{ kind: "peaking", frequencyHz: 1000, gainDb: 4, q: 3 }],
        }),
      ],
    });
    const [headroom, ...others] = outputHeadrooms(responses);
    expect(others).toEqual([]);
    expect(headroom).toMatchObject({ presetId: "interval", outputId: "out-1" });
    expect(headroom!.largest.sourceChannelId).toBe("server-2");
    expect(headroom!.largest.levelDb).toBeCloseTo(-1 + 4, 9);
    expect(headroom!.largest.frequencyHz).toBeCloseTo(1000, 9);
    const together = 20 * Math.log10(10 ** (-6 / 20) + 10 ** (-1 / 20)) + 4;
    expect(headroom!.together.levelDb).toBeCloseTo(together, 9);
    expect(headroom!.sourceChannelIds).toEqual(["server-1", "server-2"]);
  });

  it("adds the program channels that one source channel takes with their delays", () => {
    const base = {
      ...EXAMPLE,
      channels: [
        { id: "L", levelDb: 0, delayMs: 0, mute: false },
        { id: "R", levelDb: 0, delayMs: 0, mute: false },
      ],
      presets: [{ ...plain, levelDb: -2 }],
      outputs: [
        output("out-1", ["screen-left", "lf"], {
          mix: [
            { channelId: "L", gainDb: 0 },
            { channelId: "R", gainDb: 0 },
          ],
        }),
      ],
    };
    const [inPhase] = outputHeadrooms(acousticResponses(base));
    expect(inPhase!.largest.levelDb).toBeCloseTo(2 - 2 + 20 * Math.log10(2), 9);
    // Half a turn at 1 kHz: the two program channels cancel there.
    const late = base.channels.map((channel) =>
      channel.id === "R" ? { ...channel, delayMs: 0.5 } : channel,
    );
    const [apart] = outputHeadrooms(
      acousticResponses({ ...base, channels: late }, { frequenciesHz: [1000] }),
    );
    expect(apart!.largest.levelDb).toBeLessThan(-200);
  });

  it("lists every output that a preset reaches, muted or not", () => {
    const names = outputHeadrooms(acousticResponses(EXAMPLE)).map((h) => `${h.presetId} ${h.outputId}`);
    expect(names).toEqual([
      "film-a out-1",
      "film-a out-2",
      "film-a out-3",
      "interval out-1",
      "interval out-2",
      "interval out-3",
    ]);
  });
});
