import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { acousticResponses, loudspeakerSums, outputHeadrooms } from "../../src/acoustics/index.ts";
import type { ChannelLabel, Configuration, Loudspeaker, Output } from "../../src/model/index.ts";
import { unitAcoustics } from "../../src/profile/index.ts";
import { profileOf, SCREENS } from "./all-samples.ts";

const levels = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "reference", "levels.json"), "utf8"),
) as {
  facts: {
    screenChannel: { splDbC: number };
    surroundChannel: { splDbC: number };
    lfe: { inBandGainDb: number };
    xCurve: { table: { nominalHz: number; levelDb: number }[] };
  };
};

function outputsOf(configuration: Configuration, loudspeaker: Loudspeaker): Output[] {
  return loudspeaker.ways.map(({ id }) => {
    const fed = configuration.outputs.filter(
      ({ feeds }) =>
        feeds.kind === "loudspeaker" && feeds.loudspeakerId === loudspeaker.id && feeds.wayId === id,
    );
    expect([loudspeaker.id, id, fed.length]).toEqual([loudspeaker.id, id, 1]);
    return fed[0]!;
  });
}

/** Earliest and latest arrival at the reference seat over the loudspeakers of a program channel, in ms. */
function arrivals(configuration: Configuration, label: ChannelLabel): number[] {
  const speedMps = 343.2 * Math.sqrt((configuration.screen.temperatureC + 273.15) / 293.15);
  const channel = configuration.channels.find((item) => item.label === label)!;
  return configuration.outputs
    .filter(
      ({ mix, feeds }) =>
        feeds.kind === "loudspeaker" && mix.some(({ channelId }) => channelId === channel.id),
    )
    .map(({ feeds, delayMs }) => {
      const speaker = configuration.loudspeakers.find(
        ({ id }) => feeds.kind === "loudspeaker" && id === feeds.loudspeakerId,
      )!;
      return channel.delayMs + delayMs + (speaker.distanceM! / speedMps) * 1000;
    });
}

const SURROUNDS: readonly ChannelLabel[] = ["Ls", "Rs", "Lss", "Rss", "Lrs", "Rrs"];

describe.each(SCREENS)("sound of %s", (_, configuration) => {
  const responses = acousticResponses(configuration, {
    unit: unitAcoustics(profileOf(configuration), configuration.unit.sampleRateHz),
  });
  const labels = configuration.channels.map(({ label }) => label);

  it("feeds every way by one output", () => {
    const fed = configuration.loudspeakers.flatMap((loudspeaker) => outputsOf(configuration, loudspeaker));
    const loudspeakerOutputs = configuration.outputs.filter(({ feeds }) => feeds.kind === "loudspeaker");
    expect(fed.length).toBe(loudspeakerOutputs.length);
  });

  it("has crossovers whose halves match", () => {
    for (const loudspeaker of configuration.loudspeakers) {
      const outputs = outputsOf(configuration, loudspeaker);
      for (const [index, upper] of outputs.slice(1).entries()) {
        expect(upper.highPass).toBeDefined();
        expect(outputs[index]!.lowPass).toEqual(upper.highPass);
      }
    }
  });

  it("protects every way at least as its data sheet asks", () => {
    for (const loudspeaker of configuration.loudspeakers) {
      for (const [index, output] of outputsOf(configuration, loudspeaker).entries()) {
        const { safeHighPassHz, safeHighPassOrder } = loudspeaker.ways[index]!;
        expect(output.highPass?.frequencyHz).toBeGreaterThanOrEqual(safeHighPassHz!);
        expect(output.highPass?.order).toBeGreaterThanOrEqual(safeHighPassOrder!);
        expect(output.limiter?.enabled).toBe(true);
      }
    }
  });

  it("has ways in the flatter polarity, without a gap", () => {
    const pairs = loudspeakerSums(responses, { of: "crossovers" }).flatMap((sum) => sum.pairs);
    expect(pairs.length).toBeGreaterThan(2);
    for (const { crossing } of pairs) {
      expect(crossing?.flatter).toBe("as-set");
      expect(crossing?.rippleDb).toBeLessThan(1);
    }
  });

  it("stays below full scale in every preset, one source channel at a time", () => {
    const over = outputHeadrooms(responses).filter(({ largest }) => largest.levelDb > 0);
    expect(over.map(({ presetId, outputId }) => `${presetId} ${outputId}`)).toEqual([]);
  });

  it("lets the surrounds arrive 10 to 20 ms after the screen at the reference seat (common practice, no source)", () => {
    const screen = ["L", "C", "R"].flatMap((label) => arrivals(configuration, label as ChannelLabel));
    const surround = labels
      .filter((label) => SURROUNDS.includes(label))
      .flatMap((label) => arrivals(configuration, label));
    expect(Math.min(...surround) - Math.max(...screen)).toBeGreaterThan(10);
    expect(Math.max(...surround) - Math.min(...screen)).toBeLessThan(20);
  });

  it("lets both halves of an array and both subwoofers arrive together", () => {
    for (const label of [...labels.filter((item) => SURROUNDS.includes(item)), "LFE" as const]) {
      const times = arrivals(configuration, label);
      expect(Math.max(...times) - Math.min(...times)).toBeLessThan(0.15);
    }
  });

  it("was measured near the reference levels (SMPTE RP 200) and the X-curve (SMPTE ST 202)", () => {
    const { screenChannel, surroundChannel, lfe, xCurve } = levels.facts;
    for (const { channelId, levelDbC, inBandGainDb, thirdOctavesDb } of configuration.calibration!.channels) {
      if (channelId === "LFE") {
        expect(Math.abs(inBandGainDb! - lfe.inBandGainDb)).toBeLessThanOrEqual(0.5);
        continue;
      }
      const reference = SURROUNDS.includes(channelId as ChannelLabel) ? surroundChannel : screenChannel;
      expect(Math.abs(levelDbC - reference.splDbC)).toBeLessThanOrEqual(0.5);
      const away = thirdOctavesDb!.map((levelDb, band) => Math.abs(levelDb - xCurve.table[band]!.levelDb));
      expect(xCurve.table[26]!.nominalHz).toBe(16000);
      expect(Math.max(...away)).toBeLessThan(3);
    }
  });

  it("is in time with its picture at the reference seat (ITU-R BT.1359-1, detectability)", () => {
    const unitMs = responses.paths[0]!.delayMs - pathSettingsMs(configuration, responses.paths[0]!);
    const travelMs = Math.min(...arrivals(configuration, "C"));
    for (const preset of configuration.presets.filter(({ sourceId }) => sourceId === "dcp")) {
      const atScreen = preset.delayMs + unitMs - configuration.screen.videoLatencyMs;
      expect(atScreen).toBeGreaterThan(-45);
      expect(atScreen + travelMs).toBeLessThan(125);
    }
  });
});

/** The delays of a path that are settings; the rest is the unit's own. */
function pathSettingsMs(
  configuration: Configuration,
  path: { readonly presetId: string; readonly channelId: string; readonly outputId: string },
): number {
  const of = (items: readonly { readonly id: string; readonly delayMs: number }[], id: string) =>
    items.find((item) => item.id === id)!.delayMs;
  const { presets, channels, outputs } = configuration;
  return of(presets, path.presetId) + of(channels, path.channelId) + of(outputs, path.outputId);
}
