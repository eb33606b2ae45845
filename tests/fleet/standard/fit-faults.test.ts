import { describe, expect, it } from "vitest";
import type { Configuration, StandardAnswer, StandardLine } from "../../../src/model/index.ts";
import { validateConfiguration } from "../../../src/rules/index.ts";
import { expectAlignmentUntouched, open, optionsOf, profileOf, proposed } from "./fit-support.ts";
import { edited, mediumScreen, smallScreen } from "./support.ts";

const answer = (place: string, choose: string): StandardAnswer => ({ place, choose });

function errorsOf(configuration: Configuration) {
  return validateConfiguration(configuration, { profile: profileOf(configuration) })
    .filter(({ severity }) => severity === "error")
    .map(({ code }) => code);
}

const item = (id: string, trigger: object, presetId = "feature-51") => ({
  id,
  label: id.toUpperCase(),
  trigger,
  action: { kind: "recall-preset", presetId },
});
const automation = (...items: readonly object[]): StandardLine => ({
  place: "automation",
  hold: "at-least",
  items: items as never,
});
const serial = (text: string, connectorId = "com-01") => ({ kind: "serial", connectorId, text });
const network = (text: string, interfaceId = "control") => ({ kind: "network", interfaceId, text });

describe("one trigger for two things", () => {
  // On this screen SHOW 1 over the serial line recalls feature-51, and over the network 'show 2' feature-sds.
  const asks = "fitting/automation/call/trigger";

  it("the screen's own and the standard's: asked with both sides", () => {
    const { proposal, configuration } = proposed(mediumScreen, [automation(item("call", network("show 2")))]);
    expect(configuration).toBeUndefined();
    expect(open(proposal)).toEqual([asks]);
    const [question] = proposal.questions;
    expect(question!.question).toContain("The standard's 'CALL' (recall 'feature-51')");
    expect(question!.question).toMatch(/this screen's '.*' \(recall 'feature-sds'\)/);
    expect(optionsOf(proposal, asks)).toEqual(["leave-out", "not-added"]);
    expect(question!.recommended).toBeUndefined();
  });

  it("leave out: the standard's has it, the screen's own goes and is told", () => {
    const { proposal, configuration } = proposed(
      mediumScreen,
      [automation(item("call", network("show 2")))],
      {
        answers: [answer(asks, "leave-out")],
      },
    );
    const ids = configuration!.automation.map(({ id }) => id);
    expect(ids).toContain("call");
    expect(ids).not.toContain("network-feature-sds");
    expect(proposal.fitting).toContainEqual(
      expect.objectContaining({ place: "automation/network-feature-sds", outcome: "left-out" }),
    );
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(mediumScreen, configuration!);
  });

  it("not added: the screen stays as it is, and the next round does not ask", () => {
    const lines = [automation(item("call", network("show 2")))];
    const { proposal } = proposed(mediumScreen, lines, { answers: [answer(asks, "not-added")] });
    expect(proposal.outcome).toBe("follows");
    expect(proposed(mediumScreen, lines, { followed: lines }).proposal.questions).toEqual([]);
  });

  it("both do the same: leaving the screen's own out loses nothing, which is said", () => {
    const { proposal } = proposed(mediumScreen, [automation(item("call", network("show 1")))]);
    expect(proposal.questions[0]).toMatchObject({ place: asks, recommended: "leave-out" });
    expect(proposal.questions[0]!.options[0]!.consequence).toContain("nothing is missed");
  });

  it("the same line of the unit only when the plan has wired it: asked then", () => {
    const { proposal } = proposed(smallScreen, [
      automation(item("call", serial("SHOW 2", "a-line-of-another-unit"))),
    ]);
    expect(open(proposal)).toEqual([asks]);
  });

  it("two of the standard that become the same on this screen: asked", () => {
    const { proposal } = proposed(mediumScreen, [
      automation(item("first", network("GO", "lan")), item("second", network("GO", "net"), "music")),
    ]);
    expect(open(proposal)).toEqual(["fitting/automation/second/trigger"]);
    expect(proposal.questions[0]!.question).toContain("So does the standard's 'FIRST' (recall 'feature-51')");
  });

  it("an item of the screen gets a text that another one has: it may stay as before", () => {
    const line: StandardLine = {
      place: "automation/serial-music/trigger/text",
      hold: "exactly",
      value: "SHOW 1",
    };
    const answers = [answer("automation/*/trigger/text", "standard")];
    const place = "fitting/automation/serial-music/trigger";
    const { proposal } = proposed(mediumScreen, [line], { answers });
    expect(optionsOf(proposal, place)).toEqual(["leave-out", "stay"]);
    const stays = proposed(mediumScreen, [line], { answers: [...answers, answer(place, "stay")] });
    expect(stays.proposal.outcome).toBe("follows");
    const goes = proposed(mediumScreen, [line], { answers: [...answers, answer(place, "leave-out")] });
    expect(goes.configuration!.automation.map(({ id }) => id)).not.toContain("serial-feature-51");
    expect(errorsOf(goes.configuration!)).toEqual([]);
  });

  it("that was there before the standard came is for 'validate' to find", () => {
    const twice = edited(mediumScreen, (draft) => {
      draft.automation[4].trigger.text = draft.automation[3].trigger.text;
    });
    expect(errorsOf(twice)).toEqual(["operation/trigger-twice"]);
    const { proposal } = proposed(twice, [automation(item("call", network("CALL")))]);
    expect(proposal).toMatchObject({ outcome: "proposed", questions: [], findings: [] });
  });
});

describe("what the rule book would newly call an error", () => {
  const carries: StandardLine = {
    place: "sources/event/channels/event-06/carries",
    hold: "exactly",
    value: "LFE",
  };
  const answers = [answer("sources/*/channels/*/carries", "standard")];
  const place = "fitting/sources/event/fault";

  it("is never proposed: the part that causes it is told with the finding, and asked about", () => {
    const { proposal, configuration } = proposed(mediumScreen, [carries], { answers });
    expect(configuration).toBeUndefined();
    expect(open(proposal)).toEqual([place]);
    expect(optionsOf(proposal, place)).toEqual(["stay"]);
    expect(proposal.questions[0]!.question).toMatch(/cannot be loaded here\. .*carries/);
  });

  it("stays as the screen has it by decision; everything else is proposed", () => {
    const level: StandardLine = { place: "presets/music/levelDb", hold: "exactly", value: -11 };
    const { proposal, configuration } = proposed(mediumScreen, [carries, level], {
      answers: [...answers, answer("presets/*/levelDb", "standard"), answer("fitting/*/*/fault", "stay")],
    });
    expect(proposal.outcome).toBe("proposed");
    expect(configuration!.sources).toEqual(mediumScreen.sources);
    expect(configuration!.presets.find(({ id }) => id === "music")!.levelDb).toBe(-11);
    expect(proposal.steps.find((step) => step.place === carries.place)!.outcome).toBe("kept-by-decision");
    expect(proposal.fitting).toContainEqual(
      expect.objectContaining({ place: "sources/event", outcome: "left-out" }),
    );
    expect(errorsOf(configuration!)).toEqual([]);
  });

  it("is asked about for just the parts that cause it", () => {
    const swap: readonly StandardLine[] = [
      { place: "presets/music/slot", hold: "exactly", value: slotOf("advertising") },
      { place: "presets/advertising/slot", hold: "exactly", value: slotOf("music") },
    ];
    const { proposal } = proposed(mediumScreen, [carries, ...swap], {
      answers: [...answers, answer("presets/*/slot", "standard")],
    });
    expect(open(proposal)).toEqual([place]);
  });

  it("waits until everything else is decided", () => {
    const list = automation(item("call", serial("SHOW 2")));
    const { proposal } = proposed(mediumScreen, [carries, list], { answers });
    expect(open(proposal)).toEqual(["fitting/automation/call/trigger"]);
  });

  it("an error that was there before is not the standard's, whatever the place is called now", () => {
    const wrong = edited(mediumScreen, (draft) => {
      draft.automation[0].action.presetId = "nowhere";
    });
    const line: StandardLine = { place: "automation/contact-1/label", hold: "exactly", value: "NEW" };
    const { proposal } = proposed(wrong, [line], { answers: [answer("automation/*/label", "standard")] });
    expect(proposal.questions.filter(({ place: at }) => at.endsWith("/fault"))).toEqual([]);
  });
});

function slotOf(id: string): number {
  return mediumScreen.presets.find((preset) => preset.id === id)!.slot;
}

describe("an automation item that becomes one of another kind", () => {
  const place = "automation/network-feature-51";
  const cue = (trigger: object, action: object): StandardLine =>
    automation({ id: "network-feature-51", label: "Feature 5.1", trigger, action });
  const recall = { kind: "recall-preset", presetId: "feature-51" };

  it("is asked about once, not member by member", () => {
    const line = cue(serial("FEATURE", "some-line"), { kind: "set-fader", faderMark: 70 });
    const { proposal } = proposed(mediumScreen, [line]);
    expect(open(proposal)).toEqual([`${place}/trigger/kind`, `${place}/action/kind`]);
  });

  it("takes all that goes with the kind, comes in by the screen's own line, and says so", () => {
    const { proposal, configuration } = proposed(
      mediumScreen,
      [cue(serial("FEATURE", "some-line"), recall)],
      {
        answers: [answer("automation/*/*/kind", "standard"), answer("automation/*/label", "screen")],
      },
    );
    expect(configuration!.automation.find(({ id }) => id === "network-feature-51")!.trigger).toEqual(
      serial("FEATURE", "com-01"),
    );
    expect(proposal.fitting.some(({ todo }) => todo?.startsWith("Wire"))).toBe(true);
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(mediumScreen, configuration!);
  });

  it("stays whole where the screen's kind stays", () => {
    const line = cue(network("show 1"), { kind: "set-fader", faderMark: 0 });
    const { proposal } = proposed(mediumScreen, [line], {
      answers: [answer("automation/*/*/kind", "screen"), answer("automation/*/label", "screen")],
    });
    expect(proposal.outcome).toBe("follows");
    const steps = proposal.steps.filter((step) => step.place.startsWith(`${place}/action`));
    expect(new Set(steps.map(({ outcome }) => outcome))).toEqual(new Set(["kept-by-decision"]));
  });

  it("follows without a question where only the standard changed", () => {
    const [before, after] = [cue(network("show 1"), recall), cue(network("show 1"), { kind: "mute" })];
    const { configuration } = proposed(
      edited(mediumScreen, (draft) => {
        draft.automation.find(({ id }: { id: string }) => id === "network-feature-51").label = "Feature 5.1";
      }),
      [after],
      { followed: [before] },
    );
    const item = configuration!.automation.find(({ id }) => id === "network-feature-51")!;
    expect(item.action).toEqual({ kind: "mute" });
  });

  it("is left alone by a line for a member that its kind does not have", () => {
    const line: StandardLine = { place: `${place}/action/faderMark`, hold: "exactly", value: 70 };
    const { proposal } = proposed(mediumScreen, [line]);
    expect(proposal.outcome).toBe("follows");
    expect(proposal.steps[0]).toMatchObject({ outcome: "by-hand" });
  });
});

describe("what only a person can add", () => {
  it("program channels, either way: they have loudspeakers", () => {
    const line: StandardLine = {
      place: "channels",
      hold: "these-only",
      items: [{ id: "L" }, { id: "Cs", label: "Cs", levelDb: 0, delayMs: 0, mute: false }] as never,
    };
    const { proposal } = proposed(smallScreen, [line]);
    expect(proposal.outcome).toBe("follows");
    expect(new Set(proposal.steps.map(({ outcome }) => outcome))).toEqual(new Set(["by-hand"]));
    expect(proposal.steps).toHaveLength(smallScreen.channels.length);
  });

  it("paging where the screen has none and the standard says only how far the program is lowered", () => {
    const without = edited(smallScreen, (draft) => {
      delete draft.operation.paging;
    });
    const duck: StandardLine = { place: "operation/paging/programDuckDb", hold: "exactly", value: 18 };
    const { proposal } = proposed(without, [duck]);
    expect(proposal.outcome).toBe("follows");
    expect(proposal.steps[0]).toMatchObject({
      outcome: "by-hand",
      why: expect.stringContaining("too little"),
    });
    const whole = [
      duck,
      { place: "operation/paging/sourceId", hold: "exactly", value: "microphone" },
      { place: "operation/paging/presetId", hold: "exactly", value: "microphone" },
    ] as const;
    const { configuration } = proposed(without, whole, { answers: [answer("operation/*/*", "standard")] });
    expect(configuration!.operation.paging).toEqual(
      smallScreen.operation.paging && {
        programDuckDb: 18,
        sourceId: "microphone",
        presetId: "microphone",
      },
    );
  });
});

describe("sources", () => {
  const server = (count: number) =>
    ({
      place: "sources",
      hold: "at-least",
      items: [
        {
          ...smallScreen.sources[0]!,
          channels: [
            ...smallScreen.sources[0]!.channels,
            ...Array.from({ length: count }, (_, index) => ({
              id: `more-${index}`,
              position: smallScreen.sources[0]!.channels.length + index + 1,
              connectorId: `of-another-unit-${index}`,
              gainDb: 0,
            })),
          ],
        },
      ],
    }) as unknown as StandardLine;

  it("more channels than the unit has inputs for: asked, the rest is plugged in", () => {
    const place = "fitting/sources/dcp/channels";
    const { proposal } = proposed(smallScreen, [server(40)]);
    expect(open(proposal)).toEqual([place]);
    const { configuration, proposal: decided } = proposed(smallScreen, [server(40)], {
      answers: [answer("fitting/sources/*/channels", "not-added")],
    });
    if (configuration !== undefined) expect(errorsOf(configuration)).toEqual([]);
    expect(["proposed", "follows"]).toContain(decided.outcome);
  });

  it("that go with their presets: one answer keeps both, another lets both go", () => {
    const keep = smallScreen.sources.filter(({ id }) => id !== "disc").map(({ id }) => ({ id }));
    const line = { place: "sources", hold: "these-only", items: keep } as unknown as StandardLine;
    const answers = [answer("sources/disc", "standard")];
    const place = "fitting/presets/disc-stereo/source";
    const { proposal } = proposed(smallScreen, [line], { answers });
    expect(optionsOf(proposal, place)).toEqual(expect.arrayContaining(["stay", "leave-out"]));
    const stays = proposed(smallScreen, [line], { answers: [...answers, answer(place, "stay")] });
    expect(stays.proposal.outcome).toBe("follows");
    const goes = proposed(smallScreen, [line], {
      answers: [...answers, answer(place, "leave-out"), answer("fitting/presets/*/recalls", "leave-out")],
    });
    expect(goes.configuration!.presets.map(({ id }) => id)).not.toContain("disc-stereo");
    expect(goes.configuration!.sources.map(({ id }) => id)).not.toContain("disc");
    expect(errorsOf(goes.configuration!)).toEqual([]);
  });
});

it("an EQ set comes with curves for the channels that the screen has, which is told", () => {
  const set = {
    id: "house",
    label: "HOUSE",
    channels: ["L", "Lss"].map((channelId) => ({
      channelId,
      parametric: [{ id: "a", kind: "peaking", frequencyHz: 1000, gainDb: 2, q: 1 }],
    })),
  };
  const { proposal, configuration } = proposed(mediumScreen, [
    { place: "equalizations", hold: "at-least", items: [set] as never },
  ]);
  expect(configuration!.equalizations.at(-1)!.channels.map(({ channelId }) => channelId)).toEqual(["L"]);
  expect(proposal.fitting.map(({ text }) => text).join()).toContain("Without curves for Lss");
});
