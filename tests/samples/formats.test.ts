import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Configuration, Preset } from "../../src/model/index.ts";
import { CONFIGURATIONS } from "./all-samples.ts";

/** Soundfield groups (SMPTE ST 428-12) and positions (ISDCF Document 4 of 2017-06-29), from the reference tables. */
const { facts } = JSON.parse(
  readFileSync(join(import.meta.dirname, "..", "reference", "formats.json"), "utf8"),
) as {
  facts: {
    soundfieldGroups: { format: string; channels: string[] }[];
    assignments: { id: string; positions: Record<string, string | number | null>[] }[];
  };
};
const doc4 = facts.assignments.find(({ id }) => id.startsWith("isdcf-doc4"))!.positions;

function groupOf(format: string): readonly string[] {
  if (format === "mono") return ["C"];
  if (format === "stereo") return ["L", "R"];
  return facts.soundfieldGroups.find((group) => group.format === format)!.channels;
}

/** What a preset's source channel carries: by Document 4, or by the source's own labels. */
function carriedBy(configuration: Configuration, preset: Preset, sourceChannelId: string): string {
  const source = configuration.sources.find(({ id }) => id === preset.sourceId)!;
  const channel = source.channels.find(({ id }) => id === sourceChannelId)!;
  if (source.assignment === "as-labelled") return channel.carries === "mono" ? "C" : channel.carries!;
  // Document 4 does not name mono; its C stands at position 3 in every column.
  const column = preset.format === "mono" ? "5.1" : preset.format;
  return String(doc4.find(({ position }) => position === channel.position)![column]);
}

function loudspeakersOf(configuration: Configuration, channelId: string): string[] {
  return configuration.outputs
    .filter(({ mix, mute }) => !mute && mix.some((part) => part.channelId === channelId))
    .flatMap(({ feeds }) => (feeds.kind === "loudspeaker" ? [feeds.loudspeakerId] : []));
}

/** The arrays that share a surround of 5.1 in a 7.1DS auditorium (common practice, no source). */
const SHARED_BY: Readonly<Record<string, readonly string[]>> = { Ls: ["Lss", "Lrs"], Rs: ["Rss", "Rrs"] };

describe.each(CONFIGURATIONS)("presets of %s", (_, configuration) => {
  it.each(configuration.presets)(
    "$id carries its whole format, each channel from its own position",
    (preset) => {
      const carried = preset.routing.map((route) => carriedBy(configuration, preset, route.sourceChannelId));
      const heard = new Set(carried.filter((label) => label !== "HI" && label !== "VIN"));
      expect([...heard].sort()).toEqual([...groupOf(preset.format)].sort());
    },
  );

  it.each(configuration.presets)("$id sends each channel where it belongs", (preset) => {
    for (const route of preset.routing) {
      const label = carriedBy(configuration, preset, route.sourceChannelId);
      const target = configuration.channels.find(({ id }) => id === route.channelId)!.label;
      if (label === target) expect(route.gainDb).toBe(0);
      else {
        expect(SHARED_BY[label]).toContain(target);
        expect(route.gainDb).toBe(-3);
      }
    }
  });

  it.each(configuration.presets)(
    "$id reaches loudspeakers with all that is meant for them, and only that",
    (preset) => {
      for (const { channelId } of preset.routing) {
        const headset = channelId === "HI" || channelId === "VIN";
        expect([channelId, loudspeakersOf(configuration, channelId).length > 0]).toEqual([
          channelId,
          !headset,
        ]);
      }
    },
  );
});

describe("5.1 on a 7.1DS screen", () => {
  const large = CONFIGURATIONS.filter(([, { screen }]) => screen.format === "7.1DS");

  it.each(large)("feeds side and rear from each surround at -3 dB: %s", (_, configuration) => {
    const surround = configuration.presets
      .filter(({ format }) => format === "5.1")
      .map((preset) =>
        preset.routing
          .filter(({ channelId }) => /^[LR][sr]s$/.test(channelId))
          .map((route) => [
            carriedBy(configuration, preset, route.sourceChannelId),
            route.channelId,
            route.gainDb,
          ]),
      );
    expect(surround.length).toBeGreaterThan(3);
    for (const crossings of surround) {
      expect([...crossings].sort()).toEqual([
        ["Ls", "Lrs", -3],
        ["Ls", "Lss", -3],
        ["Rs", "Rrs", -3],
        ["Rs", "Rss", -3],
      ]);
    }
  });
});
