import { describe, expect, it } from "vitest";
import { compareConfigurations } from "../../../src/diff/compare/index.ts";
import type { ComparisonFinding } from "../../../src/model/index.ts";
import { asLeft } from "../changes/samples.ts";
import { type Draft, edited, item } from "./edited.ts";

interface Case {
  readonly what: string;
  readonly edit: (draft: Draft) => void;
  /** The findings in order: code, kind, severity, place, a part of the words. */
  readonly findings: readonly (readonly [
    code: string,
    kind: string,
    severity: string,
    place: string,
    words: RegExp,
  ])[];
}

const SCREEN = ["left", "center", "right"];
const output = (draft: Draft, id: string): Draft => item(draft.outputs, id);
const equalizer = (draft: Draft, set: string, channel: string): Draft =>
  item(item(draft.equalizations, set).channels, channel);

const CASES: readonly Case[] = [
  {
    what: "a high-pass lowered below what the driver's data sheet asks",
    edit: (draft) => {
      output(draft, "left-hf").highPass.frequencyHz = 1000;
    },
    findings: [
      [
        "crossover/high-pass",
        "protection",
        "error",
        "Screen left, hf way",
        /0\.68 octaves lower: .*protected less.*1\.25 kHz/,
      ],
    ],
  },
  {
    what: "a high-pass taken away",
    edit: (draft) => {
      delete output(draft, "left-hf").highPass;
    },
    findings: [
      [
        "crossover/high-pass",
        "protection",
        "error",
        "Screen left, hf way",
        /removed .*not protected any more/,
      ],
    ],
  },
  {
    what: "a high-pass moved up: stronger, no error",
    edit: (draft) => {
      output(draft, "left-hf").highPass.frequencyHz = 1800;
    },
    findings: [
      ["crossover/high-pass", "protection", "warning", "Screen left, hf way", /protected more than before/],
    ],
  },
  {
    what: "a less steep high-pass",
    edit: (draft) => {
      output(draft, "left-hf").highPass.order = 2;
    },
    findings: [
      [
        "crossover/high-pass",
        "protection",
        "error",
        "Screen left, hf way",
        /12 dB\/octave: .*protected less/,
      ],
    ],
  },
  {
    what: "a crossover moved as a whole at all three screen loudspeakers: one finding",
    edit: (draft) => {
      for (const id of SCREEN) {
        output(draft, `${id}-mf`).lowPass.frequencyHz = 1800;
        output(draft, `${id}-hf`).highPass.frequencyHz = 1800;
      }
    },
    findings: [
      [
        "crossover/moved",
        "protection",
        "warning",
        "All screen loudspeakers, crossover mf/hf",
        /from 1\.6 kHz to 1\.8 kHz/,
      ],
    ],
  },
  {
    what: "a limiter raised, one switched off",
    edit: (draft) => {
      output(draft, "sub-1").limiter.thresholdDbfs += 3;
      output(draft, "sub-2").limiter.enabled = false;
    },
    findings: [
      ["limiter/changed", "protection", "error", "Sub left, sub way", /lets more through/],
      ["limiter/changed", "protection", "error", "Sub right, sub way", /no longer acts/],
    ],
  },
  {
    what: "the emergency mute switched off",
    edit: (draft) => {
      draft.operation.emergencyMute.enabled = false;
    },
    findings: [["emergency-mute/changed", "protection", "error", "Emergency mute", /alarm will not silence/]],
  },
  {
    what: "the emergency mute's contact inverted",
    edit: (draft) => {
      draft.operation.emergencyMute.activeWhen = "closed";
    },
    findings: [["emergency-mute/changed", "protection", "error", "Emergency mute", /uncertain/]],
  },
  {
    what: "three bands of one equalizer",
    edit: (draft) => {
      const { gainsDb } = equalizer(draft, "feature", "C").graphic;
      gainsDb[17] += 2;
      gainsDb[18] += 2.5;
      gainsDb[19] += 1.5;
    },
    findings: [
      [
        "equalizer/changed",
        "sound",
        "warning",
        "Center, EQ set Feature",
        /3 bands: \+3\.\d dB at 2\.5 kHz.*C-weighted/,
      ],
    ],
  },
  {
    what: "the same change of one channel in two EQ sets: one finding",
    edit: (draft) => {
      for (const set of ["feature", "archive"]) equalizer(draft, set, "LFE").graphic.gainsDb[4] = 2.5;
      for (const set of ["feature", "archive"]) equalizer(draft, set, "LFE").graphic.gainsDb[3] = 0;
    },
    findings: [
      ["equalizer/changed", "sound", "warning", "LFE: EQ set Feature and EQ set Archive", /2 bands/],
    ],
  },
  {
    what: "an equalizer that no preset uses: nobody hears it",
    edit: (draft) => {
      draft.presets = draft.presets.filter(({ equalizationId }: Draft) => equalizationId !== "archive");
      draft.automation = draft.automation.filter(({ action }: Draft) => action.presetId !== "archive-mono");
      equalizer(draft, "archive", "C").graphic.gainsDb[12] += 3;
    },
    findings: [
      ["preset/removed", "operation", "warning", "Preset Archive mono", /is gone/],
      ["equalizer/changed", "sound", "advice", "Center, EQ set Archive", /no preset uses it/],
    ],
  },
  {
    what: "a whole EQ set aligned anew: one finding",
    edit: (draft) => {
      for (const [index, { graphic }] of item(draft.equalizations, "speech").channels.entries()) {
        graphic.gainsDb[index + 5] += 2 + index / 4;
      }
    },
    findings: [["equalizer/retuned", "sound", "warning", "EQ set Speech", /Aligned anew in 10 channels/]],
  },
  {
    what: "one driver's EQ",
    edit: (draft) => {
      output(draft, "left-mf").filters[0].gainDb += 2;
    },
    findings: [
      ["driver-eq/changed", "sound", "warning", "Screen left, mf way", /1 filter: [+−]\d\.\d dB at/],
    ],
  },
  {
    what: "an equal trim on all screen channels: one finding",
    edit: (draft) => {
      for (const id of ["L", "C", "R"]) item(draft.channels, id).levelDb -= 1.5;
    },
    findings: [["level/changed", "sound", "warning", "All screen channels", /lowered by 1\.5 dB/]],
  },
  {
    what: "a level so much higher that it is dangerous",
    edit: (draft) => {
      item(draft.presets, "feature-51").levelDb += 12;
    },
    findings: [["level/changed", "protection", "error", "Preset Feature 5.1", /raised by 12\.0 dB/]],
  },
  {
    what: "all output delays shifted alike: one finding",
    edit: (draft) => {
      for (const one of draft.outputs) one.delayMs += 5;
    },
    findings: [["delay/changed", "sound", "warning", "All outputs", /later by 5\.00 ms \(1\.72 m\)/]],
  },
  {
    what: "one way later than the others: phase at the crossover",
    edit: (draft) => {
      output(draft, "left-hf").delayMs += 0.1;
    },
    findings: [
      [
        "delay/changed",
        "sound",
        "warning",
        "Screen left, hf way",
        /later by 0\.10 ms .*crossover of mf and hf.*the phase goes/,
      ],
    ],
  },
  {
    what: "a program delay: frames against the picture",
    edit: (draft) => {
      item(draft.presets, "event-51").delayMs += 40;
    },
    findings: [
      ["delay/against-picture", "sound", "warning", "Preset Event 5.1", /later by 40\.00 ms.*1\.0 frames/],
    ],
  },
  {
    what: "a polarity turned over",
    edit: (draft) => {
      const one = output(draft, "left-hf");
      one.polarity = one.polarity === "normal" ? "inverted" : "normal";
    },
    findings: [
      ["polarity/turned", "sound", "warning", "Screen left, hf way", /turned over.*crossover of mf and hf/],
    ],
  },
  {
    what: "an output muted",
    edit: (draft) => {
      output(draft, "sub-1").mute = true;
    },
    findings: [["mute/silenced", "sound", "warning", "Sub left, sub way", /falls silent/]],
  },
  {
    what: "crossings taken out of a preset: who falls silent",
    edit: (draft) => {
      const preset = item(draft.presets, "feature-51");
      preset.routing = preset.routing.filter(({ channelId }: Draft) => channelId !== "Lss");
    },
    findings: [
      [
        "routing/changed",
        "routing",
        "warning",
        "Preset Feature 5.1",
        /1 crossing is gone\. Left side, front half and Left side, rear half fall silent/,
      ],
    ],
  },
  {
    what: "a crossing too many: who doubles",
    edit: (draft) => {
      const preset = item(draft.presets, "feature-51");
      preset.routing.push({ ...preset.routing[0], id: "extra", channelId: "C" });
    },
    findings: [
      [
        "routing/changed",
        "routing",
        "warning",
        "Preset Feature 5.1",
        /1 crossing is new\. Screen center gets more signals/,
      ],
    ],
  },
  {
    what: "two outputs that exchanged everything: one finding",
    edit: (draft) => {
      const [a, b] = [output(draft, "left-mf"), output(draft, "left-hf")];
      draft.outputs[draft.outputs.indexOf(a)] = { ...b, id: a.id, connectorId: a.connectorId };
      draft.outputs[draft.outputs.indexOf(b)] = { ...a, id: b.id, connectorId: b.connectorId };
    },
    findings: [
      [
        "output/exchanged",
        "protection",
        "error",
        "Screen left, mf way and Screen left, hf way",
        /exchanged everything/,
      ],
    ],
  },
  {
    what: "an output moved to another connector",
    edit: (draft) => {
      output(draft, "sub-1").connectorId = "out-04";
      output(draft, "spare-04").connectorId = "out-13b";
    },
    findings: [
      ["output/moved", "routing", "warning", "Sub left, sub way", /connector out-04 instead of out-13/],
      ["output/moved", "routing", "warning", "Spare output Spare 4", /connector out-13b/],
    ],
  },
  {
    what: "an output that feeds another way now",
    edit: (draft) => {
      output(draft, "sub-2").feeds = { kind: "spare" };
    },
    findings: [
      [
        "output/feeds-other",
        "routing",
        "warning",
        "Spare output Sub 2",
        /instead of Sub right, sub way\. Sub right falls silent/,
      ],
    ],
  },
  {
    what: "presets removed, renumbered, given another EQ set",
    edit: (draft) => {
      draft.presets = draft.presets.filter(({ id }: Draft) => id !== "relaxed");
      item(draft.presets, "music").slot = 20;
      item(draft.presets, "archive-mono").equalizationId = "feature";
    },
    findings: [
      [
        "preset/equalizer",
        "sound",
        "warning",
        "Preset Archive mono",
        /“Feature” instead of “Archive”; most of all/,
      ],
      ["preset/removed", "operation", "warning", "Preset Relaxed show 5.1", /is gone/],
      ["preset/slot", "operation", "warning", "Preset Music", /from slot 13 to slot 20/],
    ],
  },
  {
    what: "an automation item pointed elsewhere",
    edit: (draft) => {
      draft.automation[0].action.presetId = "music";
    },
    findings: [
      [
        "automation/changed",
        "operation",
        "warning",
        "Automation Trailers",
        /recall preset “Music”; was: .*“Trailers 5\.1”/,
      ],
    ],
  },
  {
    what: "the network address and the fader",
    edit: (draft) => {
      draft.network.interfaces[0].address = "192.0.2.99";
      draft.operation.faderMark = 70;
    },
    findings: [
      [
        "network/changed",
        "operation",
        "warning",
        "Network interface Control",
        /192\.0\.2\.99 instead of 192\.0\.2\.21/,
      ],
      ["operation/fader-mark", "operation", "warning", "Fader at start-up", /70 instead of 80/],
    ],
  },
  {
    what: "names and remarks",
    edit: (draft) => {
      item(draft.presets, "event-51").label = "Live 5.1";
      draft.notes = "Checked.";
    },
    findings: [
      ["record/document", "record", "advice", "Configuration", /Remarks: Checked\. instead of “Invented/],
      ["record/name", "record", "advice", "Preset Live 5.1", /Named “Live 5\.1”, before “Event 5\.1”/],
    ],
  },
  {
    what: "another unit of the same model with other firmware",
    edit: (draft) => {
      draft.unit.serial = "G28-009999";
      draft.unit.firmware = "2.5.0";
    },
    findings: [["unit/other-unit", "operation", "warning", "Unit", /G28-009999.*firmware: 2\.5\.0/]],
  },
  {
    what: "a loudspeaker's safe limit on record",
    edit: (draft) => {
      item(item(draft.loudspeakers, "left").ways, "hf").safeHighPassHz = 900;
    },
    findings: [
      [
        "loudspeaker/safe-limit",
        "protection",
        "warning",
        "Screen left",
        /Safe high-pass corner: 900 Hz instead of 1\.25 kHz/,
      ],
    ],
  },
  {
    what: "another model: outputs with other keys and connectors, other steps, another fader scale",
    edit: (draft) => {
      draft.unit.profileId = "other-model";
      for (const [index, one] of draft.outputs.entries()) {
        one.id = `o${draft.outputs.length - index}`;
        one.connectorId = `port-${index}`;
        if (one.highPass) one.highPass.frequencyHz *= 0.99;
      }
      const monitor = draft.outputs.find(({ feeds }: Draft) => feeds.kind === "booth-monitor");
      const hearing = draft.outputs.find(({ feeds }: Draft) => feeds.kind === "hearing-impaired");
      const narration = draft.outputs.find(({ feeds }: Draft) => feeds.kind === "narration");
      draft.operation.boothMonitor.outputId = monitor.id;
      draft.operation.hearingImpaired.outputId = hearing.id;
      draft.operation.narration.outputId = narration.id;
      draft.operation.emergencyMute.connectorId = "alarm-x";
      draft.operation.faderMark = 0;
      for (const preset of draft.presets) preset.faderMark = 0;
    },
    findings: [
      ["emergency-mute/changed", "protection", "warning", "Emergency mute", /another contact/],
      [
        "unit/other-connectors",
        "routing",
        "warning",
        "Cables",
        /22 signals use .*spare outputs are other ones/,
      ],
      ["unit/other-model", "operation", "warning", "Unit", /other-model instead of skarn-30/],
      ["unit/other-fader-scale", "operation", "advice", "Fader", /15 fader marks stand/],
    ],
  },
  {
    what: "a preset that goes, with the triggers that recall it: one finding",
    edit: (draft) => {
      draft.presets = draft.presets.filter(({ id }: Draft) => id !== "relaxed");
      draft.automation = draft.automation.filter(({ action }: Draft) => action.presetId !== "relaxed");
    },
    findings: [
      [
        "preset/removed",
        "operation",
        "warning",
        "Preset Relaxed show 5.1",
        /is gone, and \d triggers? with it/,
      ],
    ],
  },
  {
    what: "differences below the tolerances",
    edit: (draft) => {
      item(draft.channels, "L").levelDb += 0.05;
      output(draft, "sub-1").delayMs += 0.01;
      equalizer(draft, "feature", "C").graphic.gainsDb[10] += 0.03;
    },
    findings: [],
  },
];

const told = ({ code, kind, severity, place }: ComparisonFinding) => [code, kind, severity, place.words];

describe("explainers", () => {
  it.each(CASES)("$what", ({ edit, findings }) => {
    const comparison = compareConfigurations(asLeft, edited(edit));
    expect(comparison.findings.map(told)).toEqual(
      findings.map(([code, kind, severity, place]) => [code, kind, severity, place]),
    );
    for (const [index, [, , , , words]] of findings.entries())
      expect(comparison.findings[index]?.words).toMatch(words);
  });

  it("counts what is below the tolerances, and tells it when they are tighter", () => {
    const after = edited((draft) => {
      item(draft.channels, "L").levelDb += 0.05;
    });
    expect(compareConfigurations(asLeft, after).counts).toMatchObject({ changes: 1, belowTolerance: 1 });
    const strict = compareConfigurations(asLeft, after, { tolerances: { levelDb: 0.01 } });
    expect(strict.findings).toHaveLength(1);
  });

  it("judges bands that are each below the tolerance by what they do together", () => {
    const after = edited((draft) => {
      const { gainsDb } = equalizer(draft, "feature", "C").graphic;
      for (const index of gainsDb.keys()) gainsDb[index] += 0.049;
    });
    expect(compareConfigurations(asLeft, after).findings.map(({ code }) => code)).toEqual([
      "equalizer/changed",
    ]);
  });
});
