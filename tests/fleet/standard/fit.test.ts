import { describe, expect, it } from "vitest";
import { acousticResponses, equalizationResponse, frequencyGrid } from "../../../src/acoustics/index.ts";
import { canonicalHash } from "../../../src/base/canonical/index.ts";
import { deviationsFrom, openQuestions, unitSteps } from "../../../src/fleet/standard/index.ts";
import type { Configuration, Preset, StandardAnswer, StandardLine } from "../../../src/model/index.ts";
import { unitAcoustics } from "../../../src/profile/index.ts";
import { validateConfiguration } from "../../../src/rules/index.ts";
import { expectAlignmentUntouched, open, optionsOf, profileOf, proposed } from "./fit-support.ts";
import {
  compiledOf,
  edited,
  largeScreen,
  mediumProfile,
  mediumScreen,
  preset,
  smallProfile,
  smallScreen,
} from "./support.ts";

/** A standard's preset with what the screen's own feature preset has. */
function soft(screen: Configuration, more: Partial<Preset> = {}) {
  const { reason: _reason, ...feature } = screen.presets.find(({ id }) => id === "feature-51")!;
  return { ...feature, id: "soft", label: "SOFT", slot: 8, levelDb: -3, ...more };
}

function presets(...items: readonly object[]): StandardLine {
  return { place: "presets", hold: "at-least", items: items as never };
}

const answer = (place: string, choose: string, more: Partial<StandardAnswer> = {}): StandardAnswer => ({
  place,
  choose,
  ...more,
});

function slotsOf({ presets: list }: Configuration) {
  return Object.fromEntries(list.map(({ id, slot }) => [id, slot]));
}

function errorsOf(configuration: Configuration) {
  return validateConfiguration(configuration, { profile: profileOf(configuration) }).filter(
    ({ severity }) => severity === "error",
  );
}

describe("slots", () => {
  const taken = presets(soft(smallScreen, { slot: 3 }));

  it("where the screen has another preset: asked, with the slot that is free", () => {
    const { proposal, configuration } = proposed(smallScreen, [taken]);
    expect(configuration).toBeUndefined();
    expect(open(proposal)).toEqual(["fitting/presets/advertising/slot"]);
    expect(optionsOf(proposal, "fitting/presets/advertising/slot")).toEqual(["move", "stay", "leave-out"]);
  });

  it("move: the screen's preset goes elsewhere, its automation follows, and somebody is to be told", () => {
    const { proposal, configuration } = proposed(smallScreen, [taken], {
      answers: [answer("fitting/presets/*/slot", "move")],
    });
    expect(slotsOf(configuration!)).toMatchObject({ soft: 3, advertising: 7 });
    expect(configuration!.automation).toEqual(smallScreen.automation);
    const [item] = proposal.fitting;
    expect(item).toMatchObject({ outcome: "moved", numbers: { fromSlot: 3, toSlot: 7 } });
    expect(item!.text).toContain("(serial)");
    expect(item!.todo).toContain("no longer in 3");
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(smallScreen, configuration!);
  });

  it("stay: the standard's preset goes elsewhere, and the next round does not ask again", () => {
    const { proposal, configuration } = proposed(smallScreen, [taken], {
      answers: [answer("fitting/presets/advertising/slot", "stay")],
    });
    expect(slotsOf(configuration!)).toMatchObject({ soft: 7, advertising: 3 });
    expect(proposal.outcome).toBe("proposed");
    const again = proposed(configuration!, [taken], { followed: [taken] });
    expect(again.proposal).toMatchObject({ outcome: "follows", questions: [] });
  });

  it("leave out: what recalled the preset is asked about, with presets like it", () => {
    const first = proposed(smallScreen, [taken], {
      answers: [answer("fitting/presets/advertising/slot", "leave-out")],
    });
    expect(open(first.proposal)).toEqual(["fitting/presets/advertising/recalls"]);
    const options = optionsOf(first.proposal, "fitting/presets/advertising/recalls");
    expect(options).toEqual(["use-feature-51", "use-trailers-51", "use-soft", "leave-out"]);
    const answers = [
      answer("fitting/presets/advertising/slot", "leave-out"),
      answer("fitting/presets/*/recalls", "use-trailers-51"),
    ];
    const { configuration } = proposed(smallScreen, [taken], { answers });
    const recalled = configuration!.automation.map(({ action }) =>
      action.kind === "recall-preset" ? action.presetId : "",
    );
    expect(recalled).not.toContain("advertising");
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(smallScreen, configuration!);
  });

  it("of two presets of the standard change places without a question", () => {
    const before = presets({ id: "trailers-51", slot: 2 }, { id: "advertising", slot: 3 });
    const after = presets({ id: "trailers-51", slot: 3 }, { id: "advertising", slot: 2 });
    const { proposal, configuration } = proposed(smallScreen, [after], { followed: [before] });
    expect(proposal.questions).toEqual([]);
    expect(slotsOf(configuration!)).toMatchObject({ "trailers-51": 3, advertising: 2 });
    // Both are moved, so both are said.
    expect(proposal.fitting.map(({ place }) => place)).toEqual([
      "presets/trailers-51/slot",
      "presets/advertising/slot",
    ]);
  });

  it("a preset of the screen takes the slot that the standard's one leaves", () => {
    const before = presets({ id: "music", slot: 5 });
    const after = presets({ id: "music", slot: 3 });
    const { configuration } = proposed(smallScreen, [after], {
      followed: [before],
      answers: [answer("fitting/presets/*/slot", "move")],
    });
    expect(slotsOf(configuration!)).toMatchObject({ music: 3, advertising: 5 });
  });

  it("that the unit does not have: asked, never rounded", () => {
    const line = presets(soft(smallScreen, { slot: 20 }));
    const { proposal } = proposed(smallScreen, [line]);
    expect(open(proposal)).toEqual(["fitting/presets/soft/slot"]);
    expect(optionsOf(proposal, "fitting/presets/soft/slot")).toEqual(["move", "not-added"]);
    const answers = [answer("fitting/presets/soft/slot", "move")];
    expect(slotsOf(proposed(smallScreen, [line], { answers }).configuration!)).toMatchObject({ soft: 7 });
  });

  it("all in use: what goes is asked, and never one that the standard holds", () => {
    const full = edited(smallScreen, (draft) => {
      for (const slot of [7, 8])
        draft.presets.push({ ...draft.presets[0], id: `own-${slot}`, slot, label: `OWN ${slot}` });
    });
    const line = presets({ id: "feature-51" }, { id: "microphone" }, soft(smallScreen));
    const { proposal } = proposed(full, [line]);
    expect(open(proposal)[0]).toBe("fitting/presets/count");
    const [count] = proposal.questions;
    expect(count!.options.map(({ id }) => id)).toEqual(["as-proposed", "own-choice", "not-added"]);
    expect(count!.options[1]).toMatchObject({
      idsCount: 1,
      candidates: expect.not.arrayContaining(["feature-51", "microphone", "soft"]),
    });
    const dropped = proposed(full, [line], {
      answers: [
        answer("fitting/presets/count", "own-choice", { ids: ["own-7"] }),
        answer("fitting/presets/*/slot", "move"),
      ],
    });
    expect(slotsOf(dropped.configuration!)).toMatchObject({ soft: 8, "own-8": 7 });
    expect(slotsOf(dropped.configuration!)).not.toHaveProperty("own-7");
    const kept = proposed(full, [line], { answers: [answer("fitting/presets/count", "not-added")] });
    expect(kept.proposal.outcome).toBe("follows");
  });

  it("not said by the standard: the lowest free one", () => {
    const { slot: _slot, ...item } = soft(smallScreen);
    expect(slotsOf(proposed(smallScreen, [presets(item)]).configuration!)).toMatchObject({ soft: 7 });
  });
});

describe("answers", () => {
  const line = presets(soft(smallScreen, { slot: 20 }));

  it("that fit no option leave the question open and are told", () => {
    const { proposal } = proposed(smallScreen, [line], {
      answers: [answer("fitting/presets/soft/slot", "up")],
    });
    expect(proposal.outcome).toBe("open");
    expect(proposal.questions[0]).toMatchObject({
      chosen: null,
      unfit: "The answer 'up' is none of move, not-added.",
    });
  });

  it("for values with stars do not count as answers to what the unit asks", () => {
    const { proposal } = proposed(smallScreen, [line], { answers: [answer("*/*/*/*", "standard")] });
    expect(proposal.questions[0]).toMatchObject({ chosen: null });
    expect(proposal.questions[0]).not.toHaveProperty("unfit");
  });

  it("are said by their positions", () => {
    const { proposal } = proposed(smallScreen, [line], {
      answers: [answer("presets/nothing/levelDb", "standard"), answer("fitting/presets/*/slot", "move")],
    });
    expect(proposal.answersUsed).toEqual([1]);
  });
});

describe("questions of many screens", () => {
  it("are one line each, and offer only what can be chosen", () => {
    const line = presets(soft(smallScreen, { label: "A name that is much too long", slot: 3 }));
    const screens = [smallScreen, edited(smallScreen, (draft) => (draft.screen.screenId = "screen-5"))].map(
      (screen) => proposed(screen, [line]).proposal,
    );
    const { answers } = openQuestions(screens, { id: "house", version: "2.0.0" });
    expect(answers.map(({ place }) => place)).toEqual([
      "presets/soft/label",
      "fitting/presets/advertising/slot",
    ]);
    expect(answers[0]!.choices).toHaveLength(1);
    expect(answers[0]!.choices![0]).toMatch(/^nearest: /);
    expect(answers[1]!.question).toContain("Asked by lantern-mill/screen-4, lantern-mill/screen-5.");
    expect(answers[1]!.choices!.map((choice) => choice.split(":")[0])).toEqual(["move", "stay", "leave-out"]);
    // What was filled in is found again, whatever else the file says.
    const filled = answers.map((item) => ({ ...item, choose: item.choices![0]!.split(":")[0]! }));
    const { proposal, configuration } = proposed(smallScreen, [line], { answers: filled });
    expect(proposal.outcome).toBe("proposed");
    expect(preset(configuration, "soft").label.length).toBeLessThanOrEqual(smallProfile.labels.maxLength);
  });
});

describe("what a preset needs", () => {
  it("a program channel that the screen lacks: the routing of a preset of the same format is offered", () => {
    const line = presets(soft(smallScreen, { slot: 30 }));
    const { proposal } = proposed(largeScreen, [line]);
    expect(open(proposal)).toEqual(["fitting/presets/soft/source"]);
    expect(optionsOf(proposal, "fitting/presets/soft/source")[0]).toBe("as-feature-51");
    const { configuration } = proposed(largeScreen, [line], {
      answers: [answer("fitting/presets/*/source", "as-feature-51")],
    });
    expect(preset(configuration, "soft").routing).toEqual(preset(largeScreen, "feature-51").routing);
    expect(errorsOf(configuration!)).toEqual([]);
  });

  it("an EQ set that the screen lacks and the standard does not bring: the screen's own are offered", () => {
    const line = presets(soft(smallScreen, { equalizationId: "house" }));
    const { proposal } = proposed(smallScreen, [line]);
    expect(optionsOf(proposal, "fitting/presets/soft/equalization")).toEqual([
      "use-feature",
      "use-event",
      "not-added",
    ]);
    const { configuration } = proposed(smallScreen, [line], {
      answers: [answer("fitting/presets/soft/equalization", "use-event")],
    });
    expect(preset(configuration, "soft").equalizationId).toBe("event");
  });

  it("a place of a preset that is there already may stay as it is", () => {
    const line: StandardLine = { place: "presets/music/sourceId", hold: "exactly", value: "jukebox" };
    const followed: StandardLine = { ...line, value: "music" };
    const asked = proposed(smallScreen, [line], { followed: [followed] });
    expect(optionsOf(asked.proposal, "fitting/presets/music/source").at(-1)).toBe("stay");
    const { proposal } = proposed(smallScreen, [line], {
      followed: [followed],
      answers: [answer("fitting/presets/music/source", "stay")],
    });
    expect(proposal).toMatchObject({ outcome: "follows", steps: [{ outcome: "kept-by-decision" }] });
  });

  it("an item of which the standard says too little is left to a person", () => {
    const { proposal } = proposed(smallScreen, [presets({ id: "soft", levelDb: -3 })]);
    expect(proposal).toMatchObject({
      outcome: "follows",
      steps: [{ place: "presets/soft", outcome: "by-hand" }],
    });
  });
});

describe("an EQ set that the standard brings", () => {
  const gainsDb = [
    0, 0, 0, 1, 1, 0.5, 0, 0, 0, 0, -0.5, -1, -1, -0.5, 0, 0, 0, 0, 0, -0.5, -1, -1.5, -2, -2, -2.5, -3, -3,
  ];
  const set = {
    id: "house",
    label: "HOUSE",
    channels: ["L", "R"].map((channelId) => ({
      channelId,
      graphic: { layout: "third-octave-27", gainsDb },
      parametric: [{ id: "a", kind: "peaking", frequencyHz: 3150, gainDb: -2, q: 1.23 }],
    })),
  };
  const brought: StandardLine = { place: "equalizations", hold: "at-least", items: [set as never] };
  const lines = [brought, presets(soft(mediumScreen, { slot: 10, equalizationId: "house" }))];

  it("is refitted for a unit without a graphic equalizer, with an error that an independent sum confirms", () => {
    const { proposal, configuration } = proposed(mediumScreen, lines);
    expect(proposal.outcome).toBe("proposed");
    const fit = proposal.fitting.find(({ place }) => place === "equalizations/house/channels/L")!;
    expect(fit.outcome).toBe("refitted");
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(mediumScreen, configuration!);
    // The same set on the graphic bands of a unit that has them, by the acoustics alone.
    const grid = frequencyGrid({ fromHz: 40, toHz: 16_000, pointsPerOctave: 48 });
    const responseDb = (document: Configuration) => {
      const unit = unitAcoustics(mediumProfile, document.unit.sampleRateHz);
      const responses = acousticResponses(
        { ...document, presets: [], outputs: [], loudspeakers: [] },
        { frequenciesHz: grid, unit },
      );
      return equalizationResponse(responses, "house", "L")!.magnitudeDb;
    };
    const asSaid = responseDb({ ...mediumScreen, equalizations: [set] } as unknown as Configuration);
    const asMade = responseDb(configuration!);
    const worst = Math.max(...[...asSaid].map((level, k) => Math.abs(level - asMade[k]!)));
    expect(worst).toBeGreaterThan(0.01);
    expect(worst).toBeLessThan(Number(fit.numbers.maxDb) + 0.02);
  });

  it("is nothing that a person has to see to by hand", () => {
    const missing = deviationsFrom(
      mediumScreen,
      compiledOf([brought]),
      unitSteps(mediumScreen, mediumProfile),
    );
    expect(missing).toMatchObject([{ kind: "missing-item", owner: "house" }]);
  });

  it("is the screen's own once it is there: neither drift nor a new version touches it", () => {
    const first = proposed(mediumScreen, lines).configuration!;
    const tuned = edited(first, (draft) => {
      draft.equalizations.at(-1).channels[0].parametric = [];
    });
    const other = { ...brought, items: [{ ...set, channels: [] }] } as unknown as StandardLine;
    expect(proposed(tuned, lines, { followed: lines }).proposal.steps).toEqual([]);
    expect(proposed(tuned, [other, lines[1]!], { followed: lines }).proposal.steps).toEqual([]);
  });

  it("finds no room: the screen's own set that sounds most alike is offered, and no set of the screen goes", () => {
    const small = [brought, presets(soft(smallScreen, { equalizationId: "house" }))];
    const { proposal } = proposed(smallScreen, small);
    expect(open(proposal)).toEqual(["fitting/equalizations/count"]);
    expect(optionsOf(proposal, "fitting/equalizations/count")).toEqual(["most-alike", "not-added"]);
    const { configuration, proposal: decided } = proposed(smallScreen, small, {
      answers: [answer("fitting/equalizations/count", "most-alike")],
    });
    expect(decided.fitting.map(({ place }) => place)).toContain("presets/soft/equalizationId");
    expect(["feature", "event"]).toContain(preset(configuration, "soft").equalizationId);
    expect(configuration!.equalizations).toEqual(smallScreen.equalizations);
  });

  it("that a screen has under another name is found to be most alike, 0.0 dB apart", () => {
    const event = smallScreen.equalizations.find(({ id }) => id === "event")!;
    const same = {
      ...brought,
      items: [{ ...event, id: "house", label: "HOUSE" }],
    } as unknown as StandardLine;
    const lines = [same, presets(soft(smallScreen, { equalizationId: "house" }))];
    const { proposal, configuration } = proposed(smallScreen, lines, {
      answers: [answer("fitting/equalizations/count", "most-alike")],
    });
    expect(preset(configuration, "soft").equalizationId).toBe("event");
    expect(proposal.fitting[0]!.text).toContain("'EVENT' in place of 'HOUSE': 0.0 dB rms apart.");
  });

  it("with a filter that nothing else can do: asked, and without it the preset asks on", () => {
    const withAllPass = {
      ...set,
      channels: [
        { channelId: "L", parametric: [{ id: "a", kind: "all-pass", frequencyHz: 200, q: 1, order: 2 }] },
      ],
    };
    const special = [{ ...brought, items: [withAllPass] } as unknown as StandardLine, lines[1]!];
    const key = "fitting/equalizations/house/channels/L/parametric/a";
    const asked = proposed(mediumScreen, special).proposal;
    expect(open(asked)).toEqual([key]);
    expect(optionsOf(asked, key)).toEqual(["leave-out", "not-added"]);
    const refused = proposed(mediumScreen, special, { answers: [answer(key, "not-added")] });
    expect(open(refused.proposal)).toEqual(["fitting/presets/soft/equalization"]);
    const without = proposed(mediumScreen, special, { answers: [answer(key, "leave-out")] });
    expect(without.proposal.outcome).toBe("proposed");
    expect(without.proposal.fitting).toContainEqual(
      expect.objectContaining({ place: expect.stringContaining("equalizations/house"), outcome: "left-out" }),
    );
  });
});

describe("a source that the standard brings", () => {
  const source = (connectors: readonly string[], kind = "aes67") => ({
    id: "stream",
    label: "STREAM",
    kind,
    assignment: "as-labelled",
    latencyMs: 0,
    channels: connectors.map((connectorId, index) => ({
      id: `stream-${index + 1}`,
      position: index + 1,
      connectorId,
      carries: index === 0 ? "L" : "R",
      gainDb: 0,
    })),
  });
  const line = (item: object): StandardLine => ({
    place: "sources",
    hold: "at-least",
    items: [item as never],
  });

  it("is plugged into free inputs of its kind, which the work list says", () => {
    const { proposal, configuration } = proposed(mediumScreen, [line(source(["net-in-09", "net-in-10"]))]);
    expect(proposal.outcome).toBe("proposed");
    const used = new Set(mediumScreen.sources.flatMap(({ channels }) => channels.map((c) => c.connectorId)));
    for (const { connectorId } of configuration!.sources.at(-1)!.channels) {
      expect(used).not.toContain(connectorId);
      expect(mediumProfile.connectors.find(({ id }) => id === connectorId)).toMatchObject({ kind: "aes67" });
    }
    expect(proposal.fitting).toMatchObject([
      { place: "sources/stream", todo: expect.stringContaining("Plug 'STREAM'") },
    ]);
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(mediumScreen, configuration!);
    // Where it is plugged is the screen's affair from then on.
    expect(proposed(configuration!, [line(source(["net-in-09", "net-in-10"]))]).proposal.steps).toEqual([]);
  });

  it("keeps inputs that are there and free", () => {
    const { configuration } = proposed(mediumScreen, [line(source(["lan-in-31", "lan-in-32"]))]);
    expect(configuration!.sources.at(-1)!.channels.map(({ connectorId }) => connectorId)).toEqual([
      "lan-in-31",
      "lan-in-32",
    ]);
  });

  it("finds no input of its kind: asked", () => {
    const { proposal } = proposed(smallScreen, [line(source(["lan-in-31", "lan-in-32"]))]);
    expect(open(proposal)).toEqual(["fitting/sources/count"]);
    const fewer = edited(smallScreen, (draft) => {
      draft.sources = draft.sources.filter(({ id }: { id: string }) => id !== "disc");
      draft.presets = draft.presets.filter(({ sourceId }: { sourceId: string }) => sourceId !== "disc");
      const there = new Set(draft.presets.map(({ id }: { id: string }) => id));
      draft.automation = draft.automation.filter(
        ({ action }: { action: { presetId?: string } }) =>
          action.presetId === undefined || there.has(action.presetId),
      );
    });
    const asked = proposed(fewer, [line(source(["lan-in-31", "lan-in-32"]))]);
    expect(open(asked.proposal)).toEqual(["fitting/sources/stream/room"]);
    const { proposal: left } = proposed(fewer, [line(source(["lan-in-31", "lan-in-32"]))], {
      answers: [answer("fitting/sources/stream/room", "leave-out")],
    });
    expect(left).toMatchObject({ outcome: "follows" });
  });
});

describe("automation that the standard brings", () => {
  const item = (trigger: object, id = "call") => ({
    id,
    label: "CALL",
    trigger,
    action: { kind: "recall-preset", presetId: "feature-51" },
  });
  const line = (...items: readonly object[]): StandardLine => ({
    place: "automation",
    hold: "at-least",
    items: items as never,
  });

  it("is wired to a free terminal where its own is taken or missing", () => {
    const { proposal, configuration } = proposed(smallScreen, [
      line(item({ kind: "contact", connectorId: "alarm-77", edge: "closing" })),
    ]);
    const made = configuration!.automation.at(-1)!;
    const taken = [
      ...smallScreen.automation.map(({ trigger }) => ("connectorId" in trigger ? trigger.connectorId : "")),
      smallScreen.operation.emergencyMute!.connectorId,
    ];
    expect(
      smallProfile.connectors.find(({ id }) => id === (made.trigger as { connectorId: string }).connectorId),
    ).toMatchObject({ kind: "contact" });
    expect(taken).not.toContain((made.trigger as { connectorId: string }).connectorId);
    expect(proposal.fitting[0]!.todo).toContain("Wire 'CALL'");
    expect(errorsOf(configuration!)).toEqual([]);
    expectAlignmentUntouched(smallScreen, configuration!);
  });

  it("finds no terminal or no such trigger: asked", () => {
    const contacts = ["a", "b", "c"].map((id) =>
      item({ kind: "contact", connectorId: id, edge: "closing" }, id),
    );
    const asked = proposed(smallScreen, [line(...contacts)]).proposal;
    expect(open(asked).length).toBeGreaterThan(0);
    expect(open(asked).every((key) => key.startsWith("fitting/automation/"))).toBe(true);
    const network = item({ kind: "network", interfaceId: "control", text: "CALL" });
    expect(open(proposed(smallScreen, [line(network)]).proposal)).toEqual([
      "fitting/automation/triggers/network",
    ]);
  });

  it("comes in by the screen's control interface, whatever the standard calls it", () => {
    const { configuration } = proposed(mediumScreen, [
      line(item({ kind: "network", interfaceId: "booth-lan", text: "CALL" })),
    ]);
    const control = mediumScreen.network.interfaces.find(({ purpose }) => purpose === "control")!;
    expect(configuration!.automation.at(-1)!.trigger).toMatchObject({ interfaceId: control.id });
  });
});

it("the same inputs give the same proposal, byte by byte", () => {
  const lines = [presets(soft(smallScreen, { slot: 3 }))];
  const once = proposed(smallScreen, lines).proposal;
  expect(canonicalHash(once)).toBe(canonicalHash(proposed(smallScreen, lines).proposal));
});
