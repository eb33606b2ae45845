import { describe, expect, it } from "vitest";
import { planMigration } from "../../../src/migrate/plan/index.ts";
import type { Configuration, UnitProfile } from "../../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "./example.ts";

function planned(to: UnitProfile, old: Configuration = SCREEN, answers = ANSWERS) {
  return planMigration(old, { from: OLD_UNIT, to, decisions: decisionsWith(answers) });
}

const item = (plan: ReturnType<typeof planned>, address: string) =>
  plan.items.find(({ claims }) => claims.includes(address));

describe("a plan onto the same unit", () => {
  it("keeps all and moves no cable", () => {
    const plan = planMigration(SCREEN, { from: OLD_UNIT, to: OLD_UNIT });
    expect(plan.configuration).toEqual(SCREEN);
    expect(plan.questions).toEqual([]);
    expect(plan.counts.kept).toBe(plan.values);
    expect(plan.cables.filter(({ moved }) => moved)).toEqual([]);
    expect(plan.equalizers.every(({ method }) => method === "copied")).toBe(true);
  });
});

describe("a plan onto another unit", () => {
  const plan = planned(NEW_UNIT);

  it("brings each cable to the connector that answers to its old one", () => {
    // Out 1 to 4 answer to the first four of the line outputs, the contacts and the AES3 line to their like.
    expect(plan.configuration.outputs.map(({ connectorId }) => connectorId)).toEqual([
      "line-1",
      "line-2",
      "line-3",
      "line-4",
    ]);
    expect(plan.cables.filter(({ moved }) => moved)).toEqual([]);
    expect(plan.cables.find(({ id }) => id === "input/Digital 1/2")?.to).toHaveLength(2);
    expect(plan.configuration.automation[0]?.trigger).toEqual({
      kind: "contact",
      connectorId: "control-2",
      edge: "closing",
    });
  });

  it("rounds the ways of a loudspeaker alike and lets the channel take up the rest", () => {
    const gains = new Map(plan.configuration.outputs.map(({ id, gainDb }) => [id, gainDb]));
    // −7.3 dB apart on steps of 0.5 dB: 7.5 is nearest, so 0.2 dB come in between the ways, whatever is done.
    expect(gains.get("left-hf")! - gains.get("left-lf")!).toBeCloseTo(-7.5, 9);
    expect(plan.levels.betweenWays).toBe(0.2);
    // −1.3 and −1.1 dB are 0.2 apart: the same step for both is nearest.
    const [left, right] = plan.configuration.channels;
    expect(left!.levelDb).toBe(right!.levelDb);
    expect(plan.levels.betweenChannels).toBe(0.2);
  });

  it("aligns the ways on whole samples and takes the unit's latency out of the program delay", () => {
    const delays = new Map(plan.configuration.outputs.map(({ id, delayMs }) => [id, delayMs]));
    const apartMs = delays.get("left-lf")! - delays.get("left-hf")!;
    // 0.31 ms are 14.88 samples at 48 kHz: 15 are 0.3125 ms.
    expect(apartMs).toBeCloseTo(15 / 48, 6);
    // 96 samples and 0.5 ms against 48 samples: 1.5 ms later; 20 ms of program delay give them back.
    const feature = plan.configuration.presets.find(({ id }) => id === "feature")!;
    const paths = feature.delayMs + delays.get("left-hf")! + 96 / 48 + 0.5;
    expect(paths).toBeCloseTo(20 + 48 / 48, 1);
    // The microphone has no program delay to give.
    expect(plan.configuration.presets.find(({ id }) => id === "talk")?.delayMs).toBe(0);
    expect(plan.delays.largest).toBeGreaterThan(1.4);
  });

  it("converts the fader by its level in dB", () => {
    expect(plan.configuration.operation.faderMark).toBe(0);
    expect(item(plan, "operation/faderMark")?.outcome).toBe("restaged");
  });

  it("copies filters that the unit has, bypassed ones too", () => {
    expect(plan.configuration.equalizations).toEqual(SCREEN.equalizations);
    expect(item(plan, "equalizations/film/channels/L/parametric/b3/gainDb")?.outcome).toBe("kept");
  });

  it("keeps what nothing changes", () => {
    expect(item(plan, "loudspeakers/left/label")?.outcome).toBe("kept");
    expect(item(plan, "network/hostname")?.outcome).toBe("kept");
    expect(item(plan, "presets/feature/slot")?.outcome).toBe("kept");
  });
});

describe("a plan onto a smaller unit", () => {
  it("never drops one way of a loudspeaker, only loudspeakers as a whole", () => {
    const to: UnitProfile = {
      ...NEW_UNIT,
      connectors: NEW_UNIT.connectors.filter(({ id }) => !/^line-[4-8]$/.test(id)),
    };
    const plan = planned(to);
    const asked = plan.questions.find(({ id }) => id === "outputs/room-analog")!;
    expect(asked.words).toContain("1 analog outputs too few");
    const fed = new Map<string, number>();
    for (const { feeds } of plan.configuration.outputs) {
      if (feeds.kind === "loudspeaker") fed.set(feeds.loudspeakerId, (fed.get(feeds.loudspeakerId) ?? 0) + 1);
    }
    for (const count of fed.values()) expect(count).toBe(2);
  });

  it("asks which presets to leave out, and what then recalls them", () => {
    const to: UnitProfile = { ...NEW_UNIT, presets: { ...NEW_UNIT.presets, max: 1 } };
    const open = planned(to);
    const asked = open.questions.find(({ id }) => id === "presets/count")!;
    expect(asked.options[0]?.words).toContain("'Talk'");
    const plan = planned(to, SCREEN, [
      ...ANSWERS.map((answer) => ({ ...answer, ifAsked: true })),
      { questionId: "presets/count", optionId: "own-choice", ids: ["feature"] },
      { questionId: "automation/presets/feature", optionId: "leave-out" },
      { questionId: "operation/startPresetId", optionId: "none" },
    ]);
    expect(plan.configuration.presets.map(({ id }) => id)).toEqual(["talk"]);
    expect(plan.configuration.automation).toEqual([]);
    expect(plan.configuration.operation.startPresetId).toBeUndefined();
    expect(plan.decided).toBe(true);
  });

  it("moves presets from slots that are not there to free ones, in their order", () => {
    const to: UnitProfile = { ...NEW_UNIT, presets: { ...NEW_UNIT.presets, slotMin: 2, slotMax: 9 } };
    const slots = planned(to).configuration.presets.map(({ id, slot }) => [id, slot]);
    expect(slots).toEqual([
      ["feature", 3],
      ["talk", 2],
    ]);
  });

  it("restages what a stage cannot hold, total by total", () => {
    const to: UnitProfile = {
      ...NEW_UNIT,
      outputs: { ...NEW_UNIT.outputs, gainDb: { kind: "step", min: -5, max: 0, step: 0.1 } },
    };
    const plan = planned(to);
    const hf = plan.configuration.outputs.find(({ id }) => id === "left-hf")!;
    expect(hf.gainDb).toBeGreaterThanOrEqual(-5);
    const channel = plan.configuration.channels.find(({ id }) => id === "L")!;
    // −1.3 dB of the channel and −7.3 dB of the output, now from three stages.
    expect(channel.levelDb + hf.gainDb + hf.mix[0]!.gainDb).toBeCloseTo(-8.6, 9);
    expect(item(plan, "outputs/left-hf/mix/L/gainDb")?.outcome).toBe("restaged");
  });

  it("asks about a level that no stage can hold, and mutes what would be too loud", () => {
    const to: UnitProfile = {
      ...NEW_UNIT,
      outputs: {
        ...NEW_UNIT.outputs,
        gainDb: { kind: "step", min: -2, max: 0, step: 0.5 },
        mixGainDb: { kind: "step", min: -2, max: 0, step: 0.5 },
      },
    };
    const plan = planned(to);
    expect(plan.questions.map(({ id }) => id)).toContain("outputs/left-hf/gainDb");
    expect(plan.configuration.outputs.find(({ id }) => id === "left-hf")?.mute).toBe(true);
  });
});

describe("a unit without a channel's label", () => {
  const LABELS = ["L", "R"] as const;

  it("plays side and rear surrounds through the one pair that it has, where nothing was left out", () => {
    const surrounds = ["Lss", "Lrs"] as const;
    const old: Configuration = {
      ...SCREEN,
      channels: surrounds.map((label, index) => ({
        id: label,
        label,
        levelDb: 0 - index,
        delayMs: 10 + index,
        mute: false,
      })),
      equalizations: [{ id: "film", label: "Film", channels: [] }],
      presets: [
        {
          ...SCREEN.presets[0]!,
          routing: surrounds.map((channelId, index) => ({
            id: `r${index}`,
            sourceChannelId: "server-1",
            channelId,
            gainDb: -3,
          })),
        },
        {
          ...SCREEN.presets[1]!,
          sourceId: "server",
          routing: [{ id: "r", sourceChannelId: "server-2", channelId: "Lrs", gainDb: 0 }],
        },
      ],
      operation: { faderMark: 80 },
      outputs: SCREEN.outputs.slice(0, 2).map((output, index) => ({
        ...output,
        gainDb: 0,
        delayMs: 0,
        mix: [{ channelId: surrounds[index]!, gainDb: 0 }],
      })),
    };
    const from = { ...OLD_UNIT, channels: { ...OLD_UNIT.channels, labels: [...surrounds, ...LABELS] } };
    const to = {
      ...OLD_UNIT,
      id: "new-8",
      channels: { ...OLD_UNIT.channels, labels: ["Ls" as const, ...LABELS] },
    };
    const answers = [
      { questionId: "unit/*", optionId: "not-known-yet" },
      { questionId: "channels/Lss", optionId: "play-as-Ls" },
    ];
    const plan = planMigration(old, { from, to, decisions: decisionsWith(answers) });
    const now = plan.configuration;
    expect(now.channels).toEqual([{ id: "Lss", label: "Ls", levelDb: 0, delayMs: 10, mute: false }]);
    // A source that fed both keeps one crossing; one that fed the rear alone now plays from both, 3 dB lower.
    expect(now.presets.map(({ routing }) => routing.map(({ gainDb }) => gainDb))).toEqual([[-3], [-3]]);
    // What the rear channel differed by goes to its output.
    expect(now.outputs[1]).toMatchObject({ delayMs: 1, mix: [{ channelId: "Lss", gainDb: -1 }] });
    expect(plan.decided).toBe(true);
  });
});
