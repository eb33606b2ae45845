import type { Configuration, UnitProfile } from "../../model/index.ts";
import { printHz } from "../../units/index.ts";
import { cautionBlock } from "../cautions.ts";
import type { Block, ReportDocument } from "../document.ts";
import { delayWords } from "./entry-sheet-delay.ts";
import { equalizationBlocks } from "./entry-sheet-equalizers.ts";
import { outputBlocks } from "./entry-sheet-outputs.ts";
import { presetBlocks } from "./entry-sheet-presets.ts";
import { type EntryWords, entryWords, exactDb, exactMs, exactNumber } from "./entry-sheet-words.ts";

export interface EntrySheetOptions {
  /** The unit on which the settings are entered: it says in which numbers it wants them. */
  readonly profile: UnitProfile;
}

/**
 * What to key in by hand when the unit reads no file, in the order of the signal flow, with a box for each setting. Numbers
 * stand as the unit shows them: delays in its own unit, the fader on its own scale.
 */
export function entrySheet(configuration: Configuration, { profile }: EntrySheetOptions): ReportDocument {
  const { screen, unit } = configuration;
  const words = entryWords(configuration, profile);
  return {
    title: `Entry sheet: ${screen.siteName}, ${screen.screenName}`,
    subtitle: `${profile.label}, serial number ${unit.serial}, firmware ${unit.firmware}`,
    blocks: [
      cautionBlock(),
      {
        kind: "list",
        marker: "box",
        items: [
          { text: "Amplifiers off, fader down." },
          { text: `Sample rate ${printHz(unit.sampleRateHz)}, name of the unit '${unit.label}'.` },
          { text: "Mute all outputs in the unit until the last page is ticked." },
        ],
      },
      { kind: "heading", level: 2, text: "1. Sources" },
      ...sourceBlocks(configuration, words),
      { kind: "heading", level: 2, text: "2. Program channels" },
      channelTable(configuration, profile),
      { kind: "heading", level: 2, text: "3. EQ sets" },
      ...equalizationBlocks(configuration, words),
      { kind: "heading", level: 2, text: "4. Outputs" },
      ...outputBlocks(configuration, words, profile),
      { kind: "heading", level: 2, text: "5. Presets" },
      ...presetBlocks(configuration, words, profile),
      { kind: "heading", level: 2, text: "6. Operation" },
      operationList(configuration, words),
      { kind: "heading", level: 2, text: "7. Automation" },
      automationTable(configuration, words),
      { kind: "heading", level: 2, text: "8. Network" },
      networkTable(configuration),
      { kind: "signatures", roles: ["Entered by", "Checked by"] },
    ],
  };
}

function sourceBlocks({ sources }: Configuration, words: EntryWords): readonly Block[] {
  return sources.map((source) => ({
    kind: "table",
    caption: `Source '${source.label}': ${source.kind}`,
    boxes: true,
    columns: [{ header: "Position", align: "end" }, { header: "Input" }, { header: "Trim", align: "end" }],
    rows: [...source.channels]
      .sort((a, b) => a.position - b.position)
      .map(({ position, connectorId, gainDb }) => [
        String(position),
        words.connector(connectorId),
        exactDb(gainDb),
      ]),
  }));
}

function channelTable({ channels, unit }: Configuration, profile: UnitProfile): Block {
  return {
    kind: "table",
    caption: "Level and delay of each program channel",
    boxes: true,
    rowNames: true,
    columns: [
      { header: "Channel" },
      { header: "Level", align: "end" },
      { header: "Delay", align: "end" },
      { header: "Mute" },
    ],
    rows: channels.map(({ label, levelDb, delayMs, mute }) => [
      label,
      exactDb(levelDb),
      delayWords(delayMs, profile.channels.delay, unit.sampleRateHz),
      mute ? "muted" : "",
    ]),
  };
}

function operationList({ operation }: Configuration, words: EntryWords): Block {
  const { emergencyMute, nonSync, paging, boothMonitor, hearingImpaired, narration } = operation;
  const texts = [
    `Fader at start-up: mark ${exactNumber(operation.faderMark)}.`,
    operation.startPresetId === undefined
      ? undefined
      : `Preset at start-up: '${words.preset(operation.startPresetId)}'.`,
    emergencyMute === undefined
      ? undefined
      : `Emergency mute: ${emergencyMute.enabled ? "on" : "off"}, contact ${words.connector(emergencyMute.connectorId)}, mutes when ${emergencyMute.activeWhen}, released ${emergencyMute.release}. Test it with whoever is responsible for life safety.`,
    nonSync === undefined
      ? undefined
      : `Music between shows: source '${words.source(nonSync.sourceId)}', preset '${words.preset(nonSync.presetId)}'.`,
    paging === undefined
      ? undefined
      : `Paging: source '${words.source(paging.sourceId)}', preset '${words.preset(paging.presetId)}', program lowered by ${exactDb(paging.programDuckDb)}.`,
    boothMonitor === undefined
      ? undefined
      : `Booth monitor: ${words.output(boothMonitor.outputId)}, ${exactDb(boothMonitor.levelDb)}.`,
    hearingImpaired === undefined
      ? undefined
      : `Hearing-impaired feed: ${words.output(hearingImpaired.outputId)}, ${exactDb(hearingImpaired.levelDb)}, without an HI channel: ${hearingImpaired.whenAbsent}.`,
    narration === undefined
      ? undefined
      : `Narration feed: ${words.output(narration.outputId)}, ${exactDb(narration.levelDb)}.`,
  ];
  return {
    kind: "list",
    marker: "box",
    items: texts.filter((text) => text !== undefined).map((text) => ({ text })),
  };
}

function automationTable({ automation }: Configuration, words: EntryWords): Block {
  return {
    kind: "table",
    caption: "Triggers and what they do",
    boxes: true,
    rowNames: true,
    columns: [{ header: "Name" }, { header: "Trigger" }, { header: "Action" }, { header: "Wait" }],
    rows: automation.map(({ label, trigger, action, waitMs }) => [
      label,
      words.trigger(trigger),
      words.action(action),
      waitMs === undefined || waitMs === 0 ? "" : exactMs(waitMs),
    ]),
  };
}

function networkTable({ network }: Configuration): Block {
  return {
    kind: "table",
    caption: `Host name ${network.hostname}`,
    boxes: true,
    rowNames: true,
    columns: [{ header: "Interface" }, { header: "Purpose" }, { header: "Address" }, { header: "Gateway" }],
    rows: network.interfaces.map(({ label, purpose, mode, address, prefixLength, gateway }) => [
      label,
      purpose,
      mode === "automatic" ? "automatic" : `${address ?? ""}/${prefixLength ?? ""}`,
      gateway ?? "",
    ]),
  };
}
