import { describe, expect, it } from "vitest";
import { planMigration } from "../../../src/migrate/plan/index.ts";
import type { Configuration, Connector, Source, UnitProfile } from "../../../src/model/index.ts";
import { NEW_UNIT, OLD_UNIT, SCREEN } from "./example.ts";

const analog = (count: number, rack: number): Connector[] =>
  Array.from({ length: count }, (_, index) => ({
    id: `ana-${index + 1}`,
    label: `Analog ${index + 1}`,
    group: "Analog",
    position: index + 1,
    rack,
    direction: "input",
    kind: "analog",
    style: "xlr",
  }));

function source(id: string, first: number, count: number): Source {
  return {
    id,
    label: id,
    kind: count === 2 ? "analog-stereo" : "analog-multichannel",
    assignment: "as-labelled",
    latencyMs: 0,
    channels: Array.from({ length: count }, (_, index) => ({
      id: `${id}-${index + 1}`,
      position: index + 1,
      connectorId: `ana-${first + index}`,
      carries: "mono",
      gainDb: 0,
    })),
  };
}

/** A six-channel guest reader and a stereo player for the music between shows, each with a preset of its own. */
const OLD: Configuration = {
  ...SCREEN,
  sources: [...SCREEN.sources, source("guest", 1, 6), source("player", 7, 2)],
  presets: [
    ...SCREEN.presets,
    ...(["guest", "player"] as const).map((id, index) => ({
      ...SCREEN.presets[0]!,
      id,
      slot: 5 + index,
      label: id,
      sourceId: id,
      routing: [1, 2].map((position) => ({
        id: `r${position}`,
        sourceChannelId: `${id}-${position}`,
        channelId: position === 1 ? "L" : "R",
        gainDb: 0,
      })),
    })),
  ],
  operation: { ...SCREEN.operation, nonSync: { sourceId: "player", presetId: "player" } },
};
const FROM: UnitProfile = {
  ...OLD_UNIT,
  sources: { ...OLD_UNIT.sources, max: 8 },
  connectors: [...OLD_UNIT.connectors, ...analog(8, 6)],
};

const planned = (to: Partial<UnitProfile>) =>
  planMigration(OLD, { from: FROM, to: { ...NEW_UNIT, sources: FROM.sources, ...to } });

describe("too few inputs", () => {
  it("serve whole sources first, and those that matter more", () => {
    const plan = planned({ connectors: [...NEW_UNIT.connectors, ...analog(2, 6)] });
    const asked = plan.questions.map(({ id }) => id).filter((id) => id.startsWith("sources/"));
    expect(asked).toEqual(["sources/guest/room"]);
    const player = plan.configuration.sources.find(({ id }) => id === "player")!;
    expect(player.channels.map(({ connectorId }) => connectorId)).toEqual(["ana-1", "ana-2"]);
    expect(plan.questions.some(({ id }) => id.startsWith("operation/"))).toBe(false);
  });

  it("give a source that cannot have all its inputs those that are missed most, and say what each preset loses", () => {
    const to = { connectors: [...NEW_UNIT.connectors, ...analog(3, 6)] };
    const asked = planned(to).questions.find(({ id }) => id === "sources/guest/room")!;
    expect(asked.options.map(({ id }) => id)).toEqual(["without-channels", "leave-out"]);
    // The one input that the player leaves goes to the first of the two positions that a preset plays.
    expect(asked.words).toContain("1 of 6 channels");
    expect(asked.options[0]).toMatchObject({
      words: "Position 2 stays unplugged.",
      consequence: "'guest' loses R.",
    });
    expect(asked.recommended?.optionId).toBe("leave-out");
  });

  it("serve all where there are enough", () => {
    const plan = planned({ connectors: [...NEW_UNIT.connectors, ...analog(8, 6)] });
    expect(plan.questions.some(({ id }) => id.startsWith("sources/"))).toBe(false);
  });
});

describe("too few sources", () => {
  it("are asked about with what each is for, the least needed first, never the paging microphone", () => {
    const plan = planned({
      connectors: [...NEW_UNIT.connectors, ...analog(8, 6)],
      sources: { ...FROM.sources, max: 2 },
    });
    const asked = plan.questions.find(({ id }) => id === "sources/count")!;
    expect(asked.options[0]?.words).toBe("Leave out 'guest', 'player'.");
    expect(asked.options[0]?.consequence).toContain("music between shows uses it");
    expect(plan.configuration.sources.map(({ id }) => id)).toEqual(["server", "mic"]);
  });
});
