import { linesOf } from "../../base/text/index.ts";
import { metresFromMs } from "../../base/units/index.ts";
import type { PrintedImprint } from "../../logbook/imprint/index.ts";
import type { Configuration, UnitProfile } from "../../model/index.ts";
import {
  channelName,
  crossoverToKeyIn,
  outputName,
  printDb,
  printMetres,
  printMs,
  printNumber,
} from "../../words/index.ts";
import { cautionBlock } from "../cautions.ts";
import type { Block, ReportDocument, Table } from "../document.ts";
import { type EqualizerCurve, equalizerPlot } from "../plot/equalizer-plot.ts";
import { type EntryWords, entryWords } from "./entry-sheet/words.ts";
import { imprintBlocks, imprintFooter, warningBlocks } from "./imprint-block.ts";

/** What a handover sheet shows besides the settings. */
export interface HandoverSheetOptions {
  readonly profile: UnitProfile;
  /** Names and values that say where the configuration comes from: entry, date, who, SHA-256, result of the checks. */
  readonly origin: readonly (readonly [name: string, value: string])[];
  /** Code by which the paper is matched with the settings. */
  readonly imprint?: PrintedImprint;
  /** What has to be read before the paper is used, such as a read-back that differs; every page points to it. */
  readonly warnings?: readonly string[];
  /** What every EQ set does, computed; plots are left out without it. */
  readonly equalizers?: readonly { readonly set: string; readonly curves: readonly EqualizerCurve[] }[];
  /** Remarks of whoever hands over; may have several lines. */
  readonly notes?: string;
}

/** The sheet that stays in the booth after commissioning: what is set, so that a person can see that nothing moved. */
export function handoverSheet(configuration: Configuration, options: HandoverSheetOptions): ReportDocument {
  const { screen } = configuration;
  const words = entryWords(configuration, options.profile);
  return {
    title: `Handover sheet: ${screen.siteName}, ${screen.screenName}`,
    subtitle: `${options.profile.label}, serial number ${configuration.unit.serial}`,
    ...imprintFooter(options.imprint, options),
    blocks: [
      ...warningBlocks(options.warnings),
      cautionBlock(),
      ...imprintBlocks(options.imprint),
      { kind: "facts", pairs: [...options.origin, ...screenFacts(configuration)] },
      ...linesOf(options.notes ?? "").map((text) => ({ kind: "paragraph" as const, text })),
      ...part("Presets", presetTable(configuration, words)),
      ...part("Program channels", channelTable(configuration)),
      ...part("Outputs", outputTable(configuration, words), guardTable(configuration)),
      ...equalizerBlocks(options),
      ...part("Operation", operationFacts(configuration, words)),
      ...(configuration.automation.length === 0
        ? []
        : part("Automation", automationTable(configuration, words))),
      ...part("Network", networkTable(configuration)),
      ...calibrationBlocks(configuration),
      { kind: "heading", level: 2, text: "Handed over" },
      { kind: "signatures", roles: ["Engineer", "For the exhibitor"] },
    ],
  };
}

function part(text: string, ...blocks: readonly Block[]): readonly Block[] {
  return [{ kind: "heading", level: 2, text }, ...blocks];
}

function screenFacts({ screen, unit }: Configuration): readonly (readonly [string, string])[] {
  return [
    ["Format", screen.format],
    ["Seats", String(screen.seats)],
    ["Air temperature", `${printNumber(screen.temperatureC, 0)} °C`],
    ["Picture latency", printMs(screen.videoLatencyMs, 1)],
    ["Firmware", unit.firmware],
    ["Sample rate", `${unit.sampleRateHz} Hz`],
  ];
}

function presetTable({ presets }: Configuration, words: EntryWords): Table {
  return {
    kind: "table",
    caption: "Presets by slot",
    columns: [
      { header: "Slot", align: "end" },
      { header: "Name" },
      { header: "Format" },
      { header: "Source" },
      { header: "EQ set" },
      { header: "Level", align: "end" },
      { header: "Delay", align: "end" },
      { header: "Fader", align: "end" },
    ],
    rows: [...presets]
      .sort((a, b) => a.slot - b.slot)
      .map((preset) => [
        String(preset.slot),
        preset.label,
        preset.format,
        words.source(preset.sourceId),
        words.equalization(preset.equalizationId),
        printDb(preset.levelDb),
        printMs(preset.delayMs, 1),
        preset.faderMark === undefined ? "stays" : printNumber(preset.faderMark, 1),
      ]),
  };
}

function channelTable(configuration: Configuration): Table {
  const { temperatureC } = configuration.screen;
  return {
    kind: "table",
    caption: "Levels and delays of the program channels",
    rowNames: true,
    columns: [
      { header: "Channel" },
      { header: "Level", align: "end" },
      { header: "Delay", align: "end" },
      { header: "As distance", align: "end" },
    ],
    rows: configuration.channels.map(({ id, levelDb, delayMs, mute }) => [
      `${channelName(configuration, id)}${mute ? " (muted)" : ""}`,
      printDb(levelDb),
      printMs(delayMs),
      printMetres(metresFromMs(delayMs, temperatureC)),
    ]),
  };
}

function outputTable(configuration: Configuration, words: EntryWords): Table {
  return {
    kind: "table",
    caption: "What each output feeds",
    columns: [
      { header: "Connector" },
      { header: "Feeds" },
      { header: "Plays" },
      { header: "Gain", align: "end" },
      { header: "Delay", align: "end" },
      { header: "Polarity" },
    ],
    rows: configuration.outputs.map((output) => [
      words.connector(output.connectorId),
      `${outputName(configuration, output)}${output.mute ? " (muted)" : ""}`,
      output.mix.map(({ channelId }) => words.channel(channelId)).join(", "),
      output.feeds.kind === "spare" ? "" : printDb(output.gainDb),
      output.feeds.kind === "spare" ? "" : printMs(output.delayMs),
      output.feeds.kind === "spare" ? "" : output.polarity,
    ]),
  };
}

function guardTable(configuration: Configuration): Table {
  return {
    kind: "table",
    caption: "What guards the drivers",
    rowNames: true,
    columns: [
      { header: "Feeds" },
      { header: "High-pass" },
      { header: "Low-pass" },
      { header: "Limiter", align: "end" },
    ],
    rows: configuration.outputs
      .filter(({ feeds }) => feeds.kind === "loudspeaker")
      .map((output) => [
        outputName(configuration, output),
        crossoverToKeyIn(output.highPass),
        crossoverToKeyIn(output.lowPass),
        output.limiter?.enabled ? `${printDb(output.limiter.thresholdDbfs)}FS` : "off",
      ]),
  };
}

function equalizerBlocks({ equalizers = [] }: HandoverSheetOptions): readonly Block[] {
  if (equalizers.length === 0) return [];
  return part("Equalizers", ...equalizers.map(({ set, curves }) => equalizerPlot(set, curves)));
}

function operationFacts({ operation }: Configuration, words: EntryWords): Block {
  const { emergencyMute, nonSync, paging, boothMonitor, hearingImpaired, narration } = operation;
  const feed = (one: { readonly outputId: string; readonly levelDb: number } | undefined): string =>
    one === undefined ? "none" : `${words.output(one.outputId)}, ${printDb(one.levelDb)}`;
  return {
    kind: "facts",
    pairs: [
      [
        "Emergency mute",
        emergencyMute === undefined
          ? "none"
          : `${emergencyMute.enabled ? "in use" : "NOT in use"}, ${words.connector(emergencyMute.connectorId)}, mutes when ${emergencyMute.activeWhen}, release ${emergencyMute.release}`,
      ],
      ["Fader at start-up", printNumber(operation.faderMark, 1)],
      [
        "Preset at start-up",
        operation.startPresetId === undefined ? "the last one" : words.preset(operation.startPresetId),
      ],
      [
        "Non-sync",
        nonSync === undefined
          ? "none"
          : `${words.source(nonSync.sourceId)}, ${words.preset(nonSync.presetId)}`,
      ],
      [
        "Paging microphone",
        paging === undefined
          ? "none"
          : `${words.source(paging.sourceId)}, ${words.preset(paging.presetId)}, program lowered by ${printDb(paging.programDuckDb)}`,
      ],
      ["Booth monitor", feed(boothMonitor)],
      ["Hearing-impaired feed", feed(hearingImpaired)],
      ["Narration feed", feed(narration)],
    ],
  };
}

function automationTable({ automation }: Configuration, words: EntryWords): Table {
  return {
    kind: "table",
    caption: "What triggers what",
    columns: [{ header: "Name" }, { header: "When" }, { header: "Then" }, { header: "After", align: "end" }],
    rows: automation.map(({ label, trigger, action, waitMs }) => [
      label,
      words.trigger(trigger),
      words.action(action),
      waitMs === undefined || waitMs === 0 ? "" : printMs(waitMs, 0),
    ]),
  };
}

function networkTable({ network }: Configuration): Table {
  return {
    kind: "table",
    caption: `Network interfaces of ${network.hostname}`,
    rowNames: true,
    columns: [{ header: "Interface" }, { header: "For" }, { header: "Address" }, { header: "Gateway" }],
    rows: network.interfaces.map(({ label, purpose, mode, address, prefixLength, gateway }) => [
      label,
      purpose,
      mode === "automatic"
        ? "automatic"
        : `${address ?? "none"}${prefixLength === undefined ? "" : `/${prefixLength}`}`,
      gateway ?? "",
    ]),
  };
}

function calibrationBlocks(configuration: Configuration): readonly Block[] {
  const { calibration } = configuration;
  if (calibration === undefined) return [];
  return part("Calibration", {
    kind: "table",
    caption: `Measured on ${calibration.date} by ${calibration.by}, ${calibration.microphonePositions.length} microphone positions`,
    rowNames: true,
    columns: [
      { header: "Channel" },
      { header: "Level", align: "end" },
      { header: "In-band gain", align: "end" },
    ],
    rows: calibration.channels.map(({ channelId, levelDbC, inBandGainDb }) => [
      channelName(configuration, channelId),
      `${printNumber(levelDbC, 1)} dBC`,
      inBandGainDb === undefined ? "" : printDb(inBandGainDb),
    ]),
  });
}
