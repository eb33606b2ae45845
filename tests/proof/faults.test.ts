import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type {
  Configuration,
  EqBand,
  Output,
  PathReason,
  Proof,
  SettingProof,
} from "../../src/model/index.ts";
import { runs } from "../runs.ts";
import { changed, type Draft, feedsWith, item, large, pathsOf, proveSamples, small } from "./samples.ts";

interface Fault {
  readonly name: string;
  readonly plant: (draft: Draft<Configuration>) => void;
  /** Feeds whose paths are audible, missing or new; every other path stays equal or within tolerance. */
  readonly audible?: readonly string[];
  readonly missing?: readonly string[];
  readonly new?: readonly string[];
  /** A reason that every audible or missing path has. */
  readonly reason?: PathReason;
  /** Presets that are late or early as a whole. */
  readonly delayed?: readonly string[];
  /** Settings that differ, "feed or preset or channel setting: verdict". */
  readonly settings?: readonly string[];
  /** Loudspeakers whose sum is no longer what it was. */
  readonly sums?: readonly string[];
  /** Connectors that carry something else. */
  readonly connectors?: readonly string[];
}

/** Everything that some outputs of the large screen feed. */
function fedBy(outputs: readonly Output[]): readonly string[] {
  return outputs.flatMap(({ feeds }) => {
    if (feeds.kind === "spare") return [];
    return [feeds.kind === "loudspeaker" ? `${feeds.loudspeakerId}/${feeds.wayId}` : feeds.kind];
  });
}

/** Everything that plays one of some program channels. */
function playing(...channelIds: readonly string[]): readonly string[] {
  return fedBy(large.outputs.filter(({ mix }) => mix.some((part) => channelIds.includes(part.channelId))));
}

const SCREEN_LEFT = ["left/hf", "left/lf", "left/mf"];
const SCREEN_RIGHT = ["right/hf", "right/lf", "right/mf"];

/** A surround loudspeaker of one way. */
const SURROUND = large.outputs.find(({ mix }) => mix.some(({ channelId }) => channelId === "Lss"))!;
const [SURROUND_FEED] = fedBy([SURROUND]);

const connectorsOf = (...outputIds: readonly string[]) =>
  outputIds.map((id) => item(large.outputs, id).connectorId);
const inputsOf = (sourceId: string) =>
  item(large.sources, sourceId).channels.map(({ connectorId }) => connectorId);

const output = (draft: Draft<Configuration>, id: string) => item(draft.outputs, id);

function feedOf(draft: Draft<Configuration>, outputId: string) {
  const { feeds } = output(draft, outputId);
  if (feeds.kind !== "loudspeaker") throw new Error("no loudspeaker");
  return feeds;
}

const FAULTS: readonly Fault[] = [
  {
    name: "one way turned over",
    plant: (draft) => {
      output(draft, "center-hf").polarity = "inverted";
    },
    audible: ["center/hf"],
    reason: "polarity",
    sums: ["center"],
  },
  {
    name: "all ways of a loudspeaker turned over",
    plant: (draft) => {
      for (const id of ["left-lf", "left-mf", "left-hf"]) output(draft, id).polarity = "inverted";
    },
    audible: SCREEN_LEFT,
    reason: "polarity",
  },
  {
    name: "a way late by 0.5 ms",
    plant: (draft) => {
      output(draft, "center-mf").delayMs += 0.5;
    },
    audible: ["center/mf"],
    reason: "delay",
    sums: ["center"],
  },
  {
    name: "a way late by three samples at 48 kHz",
    plant: (draft) => {
      output(draft, "right-hf").delayMs += 0.0625;
    },
    audible: ["right/hf"],
    reason: "delay",
    sums: ["right"],
  },
  {
    name: "a surround channel early by 20 ms",
    plant: (draft) => {
      item(draft.channels, "Lss").delayMs -= 20;
    },
    audible: playing("Lss"),
    reason: "delay",
  },
  {
    name: "program delay of a preset lost",
    plant: (draft) => {
      item(draft.presets, "disc-stereo").delayMs = 0;
    },
    delayed: ["disc-stereo"],
  },
  {
    name: "two ways swapped",
    plant: (draft) => {
      feedOf(draft, "left-lf").wayId = "hf";
      feedOf(draft, "left-hf").wayId = "lf";
    },
    audible: ["left/hf", "left/lf"],
    reason: "response",
    settings: [
      "left/hf high-pass: weaker",
      "left/hf limiter: weaker",
      "left/hf low-pass: new",
      "left/lf high-pass: changed",
      "left/lf limiter: changed",
      "left/lf low-pass: lost",
    ],
    sums: ["left"],
    connectors: connectorsOf("left-lf", "left-hf"),
  },
  {
    name: "sides swapped at the outputs",
    plant: (draft) => {
      for (const way of ["lf", "mf", "hf"]) {
        feedOf(draft, `left-${way}`).loudspeakerId = "right";
        feedOf(draft, `right-${way}`).loudspeakerId = "left";
      }
    },
    missing: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    new: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    reason: "no-mix",
    sums: ["left", "right"],
    connectors: connectorsOf(
      ...["left", "right"].flatMap((side) => ["lf", "mf", "hf"].map((way) => `${side}-${way}`)),
    ),
  },
  {
    name: "sides swapped in the mix of one way",
    plant: (draft) => {
      output(draft, "left-hf").mix = [{ channelId: "R", gainDb: 0 }];
      output(draft, "right-hf").mix = [{ channelId: "L", gainDb: 0 }];
    },
    missing: ["left/hf", "right/hf"],
    new: ["left/hf", "right/hf"],
    reason: "no-mix",
    sums: ["left", "right"],
  },
  {
    name: "sides swapped in the routing of one preset",
    plant: (draft) => {
      const { routing } = item(draft.presets, "feature-71");
      const left = routing.find(({ channelId }) => channelId === "L")!;
      const right = routing.find(({ channelId }) => channelId === "R")!;
      [left.channelId, right.channelId] = [right.channelId, left.channelId];
    },
    // The booth monitor plays both sides: there the same source channel only comes by another equalizer.
    audible: ["booth-monitor"],
    missing: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    new: [...SCREEN_LEFT, ...SCREEN_RIGHT],
  },
  {
    name: "two positions of a source swapped",
    plant: (draft) => {
      const [first, second] = item(draft.sources, "dcp").channels;
      [first!.position, second!.position] = [second!.position, first!.position];
    },
    // The booth monitor plays both sides: there the same source channel only comes by another equalizer.
    audible: ["booth-monitor"],
    missing: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    new: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    connectors: inputsOf("dcp").slice(0, 2),
  },
  {
    name: "two labels of a labelled source swapped",
    plant: (draft) => {
      const channels = item(draft.sources, "disc").channels;
      const [first, second] = channels;
      [first!.carries, second!.carries] = [second!.carries!, first!.carries!];
    },
    // The booth monitor plays both sides: there the same source channel only comes by another equalizer.
    audible: ["booth-monitor"],
    missing: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    new: [...SCREEN_LEFT, ...SCREEN_RIGHT],
    connectors: inputsOf("disc").slice(0, 2),
  },
  {
    name: "high-pass of an hf way lost",
    plant: (draft) => {
      delete output(draft, "center-hf").highPass;
    },
    audible: ["center/hf"],
    reason: "response",
    settings: ["center/hf high-pass: lost"],
    sums: ["center"],
  },
  {
    name: "low-pass of an lf way lost",
    plant: (draft) => {
      delete output(draft, "left-lf").lowPass;
    },
    audible: ["left/lf"],
    reason: "response",
    settings: ["left/lf low-pass: lost"],
    sums: ["left"],
  },
  {
    name: "protective high-pass of a subwoofer lost, below 40 Hz",
    plant: (draft) => {
      delete output(draft, "sub-1").highPass;
    },
    audible: ["sub-1/sub"],
    reason: "low-edge",
    settings: ["sub-1/sub high-pass: lost"],
  },
  {
    name: "high-pass an octave lower",
    plant: (draft) => {
      output(draft, "right-hf").highPass!.frequencyHz = 800;
    },
    audible: ["right/hf"],
    reason: "response",
    settings: ["right/hf high-pass: weaker"],
    sums: ["right"],
  },
  {
    name: "crossover of another family, same order and corner",
    plant: (draft) => {
      output(draft, "left-mf").lowPass!.family = "butterworth";
      output(draft, "left-hf").highPass!.family = "butterworth";
    },
    audible: ["left/hf", "left/mf"],
    reason: "response",
    settings: ["left/hf high-pass: changed", "left/mf low-pass: changed"],
    sums: ["left"],
  },
  {
    name: "crossover of lower order",
    plant: (draft) => {
      output(draft, "left-hf").highPass!.order = 2;
    },
    audible: ["left/hf"],
    reason: "response",
    settings: ["left/hf high-pass: weaker"],
    sums: ["left"],
  },
  {
    name: "a driver filter lost",
    plant: (draft) => {
      const { filters } = output(draft, "center-hf");
      filters.splice(strongest(filters), 1);
    },
    audible: ["center/hf"],
    reason: "response",
    sums: ["center"],
  },
  {
    name: "a notch that is narrower than the grid",
    plant: (draft) => {
      output(draft, SURROUND.id).filters.push({ id: "n", kind: "notch", frequencyHz: 1021, q: 90 });
    },
    audible: [SURROUND_FEED!],
    reason: "response",
  },
  {
    name: "an all-pass, which no magnitude shows",
    plant: (draft) => {
      output(draft, "center-mf").filters.push({ id: "a", kind: "all-pass", frequencyHz: 700, order: 1 });
    },
    audible: ["center/mf"],
    reason: "phase",
    sums: ["center"],
  },
  {
    name: "equalizer of one channel lost",
    plant: (draft) => {
      for (const set of draft.equalizations) {
        set.channels = set.channels.filter(({ channelId }) => channelId !== "Rss");
      }
    },
    audible: playing("Rss"),
    reason: "response",
  },
  {
    name: "graphic equalizer bypassed",
    plant: (draft) => {
      for (const { channels } of draft.equalizations) {
        channels.find(({ channelId }) => channelId === "Lrs")!.graphic!.enabled = false;
      }
    },
    audible: playing("Lrs"),
    reason: "response",
  },
  {
    name: "half a dB on an output",
    plant: (draft) => {
      output(draft, "sub-2").gainDb -= 0.5;
    },
    audible: ["sub-2/sub"],
    reason: "level",
  },
  {
    name: "half a dB on a program channel",
    plant: (draft) => {
      item(draft.channels, "LFE").levelDb += 0.5;
    },
    audible: playing("LFE"),
    reason: "level",
  },
  {
    name: "half a dB on a crossing of one preset",
    plant: (draft) => {
      item(draft.presets, "trailers-71").routing.find(({ channelId }) => channelId === "C")!.gainDb += 0.5;
    },
    audible: playing("C"),
    reason: "level",
  },
  {
    name: "half a dB on one preset",
    plant: (draft) => {
      item(draft.presets, "microphone").levelDb -= 0.5;
    },
    audible: playing("C"),
    reason: "level",
  },
  {
    name: "half a dB in a mix",
    plant: (draft) => {
      output(draft, "monitor").mix.find(({ channelId }) => channelId === "Rrs")!.gainDb -= 0.5;
    },
    audible: ["booth-monitor"],
    reason: "level",
  },
  {
    name: "half a dB on a source channel",
    plant: (draft) => {
      item(draft.sources, "microphone").channels[0]!.gainDb += 0.5;
    },
    audible: playing("C"),
    reason: "level",
  },
  {
    name: "half a dB on the level of the hearing-impaired feed",
    plant: (draft) => {
      draft.operation.hearingImpaired!.levelDb += 0.5;
    },
    audible: ["hearing-impaired"],
    reason: "level",
  },
  {
    name: "an output muted",
    plant: (draft) => {
      output(draft, "left-mf").mute = true;
    },
    missing: ["left/mf"],
    reason: "muted",
    settings: ["left/mf mute: changed"],
    sums: ["left"],
  },
  {
    name: "a program channel muted",
    plant: (draft) => {
      item(draft.channels, "HI").mute = true;
    },
    missing: ["hearing-impaired"],
    reason: "muted",
    settings: ["HI mute: changed"],
  },
  {
    name: "a limiter lost",
    plant: (draft) => {
      delete output(draft, "center-hf").limiter;
    },
    settings: ["center/hf limiter: lost"],
  },
  {
    name: "a limiter switched off",
    plant: (draft) => {
      output(draft, "center-hf").limiter!.enabled = false;
    },
    settings: ["center/hf limiter: lost"],
  },
  {
    name: "a limiter 1 dB higher",
    plant: (draft) => {
      output(draft, "sub-1").limiter!.thresholdDbfs += 1;
    },
    settings: ["sub-1/sub limiter: weaker"],
  },
  {
    name: "a limiter that acts more slowly",
    plant: (draft) => {
      output(draft, "sub-1").limiter!.attackMs *= 2;
    },
    settings: ["sub-1/sub limiter: weaker"],
  },
  {
    name: "a limiter that releases faster",
    plant: (draft) => {
      output(draft, "sub-1").limiter!.releaseMs /= 2;
    },
    settings: ["sub-1/sub limiter: changed"],
  },
  {
    name: "an output left without a loudspeaker",
    plant: (draft) => {
      output(draft, SURROUND.id).feeds = { kind: "spare" };
    },
    missing: [SURROUND_FEED!],
    reason: "no-feed",
  },
  {
    name: "a preset left out",
    plant: (draft) => {
      draft.presets = draft.presets.filter(({ id }) => id !== "archive-mono");
    },
    missing: [...playing("C"), "hearing-impaired", "narration"],
    reason: "no-preset",
    // What recalls it recalls nothing.
    settings: ["serial-archive-mono automation: changed", "network-archive-mono automation: changed"],
  },
  {
    name: "a crossing left out",
    plant: (draft) => {
      const preset = item(draft.presets, "feature-71");
      preset.routing = preset.routing.filter(({ channelId }) => channelId !== "VIN");
    },
    missing: ["narration"],
    reason: "no-crossing",
  },
  {
    name: "a preset on another source",
    plant: (draft) => {
      const preset = item(draft.presets, "disc-stereo");
      preset.sourceId = "music";
      for (const route of preset.routing)
        route.sourceChannelId = route.sourceChannelId.replace("disc", "music");
    },
    missing: [...SCREEN_LEFT, ...SCREEN_RIGHT, "booth-monitor"],
    new: [...SCREEN_LEFT, ...SCREEN_RIGHT, "booth-monitor"],
    reason: "no-source-channel",
  },
  {
    name: "the hearing-impaired signal in a loudspeaker",
    plant: (draft) => {
      output(draft, SURROUND.id).mix.push({ channelId: "HI", gainDb: 0 });
    },
    new: [SURROUND_FEED!],
  },
  {
    name: "one more loudspeaker playing",
    plant: (draft) => {
      const spare = output(draft, "spare-28");
      spare.feeds = SURROUND.feeds;
      spare.mix = [{ channelId: "Lss", gainDb: 0 }];
    },
    new: [`${SURROUND_FEED}#2`],
    connectors: connectorsOf("spare-28"),
  },
  {
    name: "emergency mute lost",
    plant: (draft) => {
      delete draft.operation.emergencyMute;
    },
    settings: ["emergency-mute: lost"],
  },
  {
    name: "emergency mute switched off",
    plant: (draft) => {
      draft.operation.emergencyMute!.enabled = false;
    },
    settings: ["emergency-mute: lost"],
  },
  {
    name: "emergency mute on the other state of the contact",
    plant: (draft) => {
      draft.operation.emergencyMute!.activeWhen = "closed";
    },
    settings: ["emergency-mute: changed"],
  },
  {
    name: "paging that lowers the program less",
    plant: (draft) => {
      draft.operation.paging!.programDuckDb -= 6;
    },
    settings: ["paging: changed"],
  },
  {
    name: "silence instead of program in the headsets",
    plant: (draft) => {
      draft.operation.hearingImpaired!.whenAbsent = "silence";
    },
    settings: ["when-absent: changed"],
  },
  {
    name: "fader of a preset",
    plant: (draft) => {
      item(draft.presets, "trailers-71").faderMark = large.operation.faderMark + 12;
    },
    settings: ["trailers-71 fader: changed"],
  },
  {
    name: "automation that recalls another preset",
    plant: (draft) => {
      cue(draft, "serial-feature-71").action = { kind: "recall-preset", presetId: "feature-51" };
    },
    settings: ["serial-feature-71 automation: changed"],
  },
  {
    name: "automation that mutes instead of recalling",
    plant: (draft) => {
      cue(draft, "contact-1").action = { kind: "mute" };
    },
    settings: ["contact-1 automation: changed"],
  },
  {
    name: "an automation item removed",
    plant: (draft) => {
      draft.automation = draft.automation.filter(({ id }) => id !== "serial-trailers-71");
    },
    settings: ["serial-trailers-71 automation: missing"],
  },
  {
    name: "an automation item that nobody asked for",
    plant: (draft) => {
      draft.automation.push({
        id: "intruder",
        label: "Intruder",
        trigger: { kind: "network", interfaceId: "control", text: "surprise" },
        action: { kind: "unmute" },
      });
    },
    settings: ["intruder automation: new"],
  },
  {
    name: "texts of two serial triggers exchanged",
    plant: (draft) => {
      const [a, b] = ["serial-feature-71", "serial-music"].map((id) => cue(draft, id));
      [a!.trigger, b!.trigger] = [b!.trigger, a!.trigger];
    },
    settings: ["serial-feature-71 automation: changed", "serial-music automation: changed"],
  },
  {
    name: "two contacts exchanged, both still closing",
    plant: (draft) => {
      const [a, b] = ["contact-1", "contact-2"].map((id) => cue(draft, id));
      [a!.trigger, b!.trigger] = [b!.trigger, a!.trigger];
    },
    connectors: ["contact-01", "contact-02"],
  },
  {
    name: "actions of two automation items exchanged",
    plant: (draft) => {
      const [a, b] = ["contact-1", "contact-2"].map((id) => cue(draft, id));
      [a!.action, b!.action] = [b!.action, a!.action];
    },
    settings: ["contact-1 automation: changed", "contact-2 automation: changed"],
  },
  {
    name: "a contact that acts when it opens",
    plant: (draft) => {
      const { trigger } = cue(draft, "contact-1");
      if (trigger.kind === "contact") trigger.edge = "opening";
    },
    settings: ["contact-1 automation: changed"],
  },
  {
    name: "an automation item that waits",
    plant: (draft) => {
      cue(draft, "serial-music").waitMs = 3000;
    },
    settings: ["serial-music automation: changed"],
  },
  {
    name: "another preset at start-up",
    plant: (draft) => {
      draft.operation.startPresetId = "music";
    },
    settings: ["start-preset: changed"],
  },
  {
    name: "no preset at start-up",
    plant: (draft) => {
      delete draft.operation.startPresetId;
    },
    settings: ["start-preset: missing"],
  },
  {
    name: "another preset between shows",
    plant: (draft) => {
      draft.operation.nonSync!.presetId = "microphone";
    },
    settings: ["non-sync: changed"],
  },
  {
    name: "nothing between shows",
    plant: (draft) => {
      delete draft.operation.nonSync;
    },
    settings: ["non-sync: missing"],
  },
  {
    name: "another source for announcements",
    plant: (draft) => {
      draft.operation.paging!.sourceId = "music";
    },
    settings: ["paging: changed"],
  },
  {
    name: "slots of two presets exchanged",
    plant: (draft) => {
      const [a, b] = ["feature-71", "music"].map((id) => item(draft.presets, id));
      [a!.slot, b!.slot] = [b!.slot, a!.slot];
    },
    settings: ["feature-71 slot: changed", "music slot: changed"],
  },
  {
    name: "a preset that counts as another format",
    plant: (draft) => {
      item(draft.presets, "disc-stereo").format = "mono";
    },
    settings: ["disc-stereo format: changed"],
  },
  {
    name: "input connectors of two source channels exchanged",
    plant: (draft) => {
      const [a, b] = item(draft.sources, "dcp").channels;
      [a!.connectorId, b!.connectorId] = [b!.connectorId, a!.connectorId];
    },
    connectors: ["aes-in-01", "aes-in-02"],
  },
  {
    name: "output connectors of two ways exchanged",
    plant: (draft) => {
      const [a, b] = ["left-lf", "left-hf"].map((id) => output(draft, id));
      [a!.connectorId, b!.connectorId] = [b!.connectorId, a!.connectorId];
    },
    connectors: connectorsOf("left-hf", "left-lf"),
  },
  {
    name: "the emergency mute on another contact",
    plant: (draft) => {
      draft.operation.emergencyMute!.connectorId = "contact-08";
    },
    connectors: [large.operation.emergencyMute!.connectorId, "contact-08"],
  },
  {
    name: "what a labelled source channel carries",
    plant: (draft) => {
      item(draft.sources, "microphone").channels[0]!.carries = "C";
    },
    connectors: inputsOf("microphone"),
  },
];

function cue(draft: Draft<Configuration>, id: string) {
  return item(draft.automation, id);
}

function strongest(filters: readonly EqBand[]): number {
  const gains = filters.map((band) => ("gainDb" in band ? Math.abs(band.gainDb) : 0));
  return gains.indexOf(Math.max(...gains));
}

function settingLine(of: SettingProof): string {
  const { feedId, presetId, channel, automationId, setting, verdict } = of;
  return `${[feedId ?? presetId ?? channel ?? automationId ?? "", setting].filter((part) => part !== "").join(" ")}: ${verdict}`;
}

function sorted(list: readonly string[] = []): readonly string[] {
  return [...list].sort();
}

function exchanged({ connectors }: Proof): readonly string[] {
  return sorted(
    connectors.flatMap(({ verdict, connectorId }) => (verdict === "changed" ? [connectorId] : [])),
  );
}

function sumsNotKept({ sums }: Proof): readonly string[] {
  const lost = sums.filter(({ verdict }) => verdict === "audible" || verdict === "missing");
  return [...new Set(lost.map(({ loudspeakerId }) => loudspeakerId))].sort();
}

describe("planted faults", () => {
  it.each(FAULTS)("$name", (fault) => {
    const proof = proveSamples(large, changed(large, fault.plant));
    expect(proof.verdict).toBe("differs");
    expect(feedsWith(proof, "audible")).toEqual(sorted(fault.audible));
    expect(feedsWith(proof, "missing")).toEqual(sorted(fault.missing));
    expect(feedsWith(proof, "new")).toEqual(sorted(fault.new));
    const touched = pathsOf(proof).filter(({ verdict }) => verdict === "audible" || verdict === "missing");
    if (fault.reason !== undefined) {
      for (const path of touched) expect(path.reasons).toContain(fault.reason);
    }
    expect(sorted(proof.settings.map(settingLine))).toEqual(sorted(fault.settings));
    const delayed = proof.presets.filter(({ delayVerdict }) => delayVerdict === "audible");
    expect(delayed.map(({ presetId }) => presetId)).toEqual(fault.delayed ?? []);
    expect(sumsNotKept(proof)).toEqual(sorted(fault.sums));
    expect(exchanged(proof)).toEqual(sorted(fault.connectors));
  });

  it("say how much", () => {
    const proof = proveSamples(
      large,
      changed(large, (draft) => {
        output(draft, "sub-2").gainDb -= 0.5;
        output(draft, "left-hf").delayMs += 0.5;
      }),
    );
    const of = (feedId: string) => pathsOf(proof).find((path) => path.feedId === feedId)!.deviation!;
    expect(of("sub-2/sub").responseDb).toBeCloseTo(-0.5, 2);
    expect(of("sub-2/sub")).toMatchObject({
      responseRmsDb: 0.5,
      levelDb: -0.5,
      delayMs: 0,
      phaseDeg: 0,
      polarity: "same",
    });
    expect(of("left/hf")).toMatchObject({ responseDb: 0, levelDb: 0, delayMs: 0.5 });
  });

  it("count a filter that was lost at full weight where it let nothing through", () => {
    const noHighPass = changed(large, (draft) => {
      delete output(draft, "center-hf").highPass;
    });
    const lost = pathsOf(proveSamples(large, noHighPass)).find(({ feedId }) => feedId === "center/hf")!;
    // Linkwitz-Riley of order 4 at 1.6 kHz is more than 60 dB down at 40 Hz, and deeper counts as 60 dB.
    expect(lost.deviation!.responseDb).toBeGreaterThan(50);
    expect(lost.deviation!.responseAtHz).toBeLessThan(100);
  });

  it("count deviations beside the pass band by the share that the way still plays there", () => {
    const withBump = (frequencyHz: number) => {
      const after = changed(large, (draft) => {
        output(draft, "center-hf").filters.push({ id: "x", kind: "peaking", frequencyHz, gainDb: 6, q: 4 });
      });
      return pathsOf(proveSamples(large, after)).find(({ feedId }) => feedId === "center/hf")!.deviation!;
    };
    expect(withBump(6000).responseDb).toBeGreaterThan(5.9);
    expect(withBump(6000).responseDb).toBeLessThanOrEqual(6);
    // At its corner a Linkwitz-Riley way is 6.02 dB down: half the share.
    expect(withBump(1600).responseDb).toBeGreaterThan(2.9);
    expect(withBump(1600).responseDb).toBeLessThan(3.6);
    expect(Math.abs(withBump(160).responseDb)).toBeLessThan(0.01);
  });
});

/** Faults of any size above what is tolerated, at any output that plays. */
interface RandomFault {
  readonly kind: string;
  readonly apply: (draft: Draft<Configuration>, index: number) => void;
}

const size = fc.double({ min: 1, max: 3, noNaN: true });
const sign = fc.constantFrom(-1, 1);

const randomFault: fc.Arbitrary<RandomFault> = fc.oneof(
  fc.tuple(size, sign).map(([by, to]) => ({
    kind: `gain ${0.31 * by * to} dB`,
    apply: (draft: Draft<Configuration>, index: number) => {
      draft.outputs[index]!.gainDb += 0.31 * by * to;
    },
  })),
  fc.tuple(size).map(([by]) => ({
    kind: `delay ${0.052 * by} ms`,
    apply: (draft: Draft<Configuration>, index: number) => {
      draft.outputs[index]!.delayMs += 0.052 * by;
    },
  })),
  fc.constant({
    kind: "polarity",
    apply: (draft: Draft<Configuration>, index: number) => {
      draft.outputs[index]!.polarity = draft.outputs[index]!.polarity === "normal" ? "inverted" : "normal";
    },
  }),
  fc.constant({
    kind: "mute",
    apply: (draft: Draft<Configuration>, index: number) => {
      draft.outputs[index]!.mute = true;
    },
  }),
  fc.constant({
    kind: "crossover",
    apply: (draft: Draft<Configuration>, index: number) => {
      delete draft.outputs[index]!.highPass;
    },
  }),
  fc.constant({
    kind: "mix",
    apply: (draft: Draft<Configuration>, index: number) => {
      draft.outputs[index]!.mix.pop();
    },
  }),
  fc
    .record({
      frequencyHz: fc.double({ min: 0.25, max: 0.75, noNaN: true }),
      q: fc.double({ min: 0.5, max: 20, noNaN: true }),
      by: size,
      to: sign,
    })
    .map(({ frequencyHz, q, by, to }) => ({
      kind: `peaking of ${1.1 * by * to} dB`,
      apply: (draft: Draft<Configuration>, index: number) => {
        const changedOutput = draft.outputs[index]!;
        // In the middle of what the way plays, on a logarithmic scale.
        const low = Math.max(40, changedOutput.highPass?.frequencyHz ?? 40);
        const high = Math.min(16_000, changedOutput.lowPass?.frequencyHz ?? 16_000);
        changedOutput.filters.push({
          id: "fault",
          kind: "peaking",
          frequencyHz: low * (high / low) ** frequencyHz,
          gainDb: 1.5 * by * to,
          q,
        });
      },
    })),
);

describe("planted faults of any size above the tolerances", () => {
  it.each([
    ["large", large],
    ["small", small],
  ] as const)(
    "are found, at the output where they were planted and nowhere else: %s screen",
    (_name, screen) => {
      const playing = screen.outputs.flatMap(({ feeds, mix }, index) =>
        feeds.kind !== "spare" && mix.length > 0 ? [index] : [],
      );
      fc.assert(
        fc.property(fc.constantFrom(...playing), randomFault, (index, { apply }) => {
          const after = changed(screen, (draft) => apply(draft, index));
          const proof = proveSamples(screen, after);
          expect(proof.verdict).toBe("differs");
          const { feeds } = screen.outputs[index]!;
          const feedId = feeds.kind === "loudspeaker" ? `${feeds.loudspeakerId}/${feeds.wayId}` : feeds.kind;
          const touched = pathsOf(proof).filter(({ verdict }) => verdict !== "equal");
          expect(new Set(touched.map((path) => path.feedId))).toEqual(new Set([feedId]));
        }),
        { numRuns: runs(25) },
      );
    },
  );
});
