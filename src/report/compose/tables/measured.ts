import type { XCurveDeviation } from "../../../acoustics/index.ts";
import type { Calibration, Configuration } from "../../../model/index.ts";
import { channelName, printDb, printDbChange, printHz, printSigned } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, Cell, ReportDocument } from "../../document.ts";
import { xCurvePlot } from "../../plot/x-curve-plot.ts";

/** A measured channel beside the X-curve; the LFE channel has no X-curve. */
export interface MeasuredChannel {
  readonly channelId: string;
  readonly bands: readonly XCurveDeviation[];
}

/** A measurement to print. */
export interface MeasuredReport {
  readonly configuration: Configuration;
  readonly calibration: Calibration;
  /** Screen and surround channels with measured third octaves, in the order of the configuration. */
  readonly channels: readonly MeasuredChannel[];
  readonly toleranceDb: number;
  /** Whether the responses are drawn; where they are not, the table has the figures. */
  readonly plots: boolean;
}

/** The measured responses of a screen's channels held against the X-curve. */
export function measuredReport(report: MeasuredReport): ReportDocument {
  const { configuration, calibration, channels, plots } = report;
  const { siteName, screenName } = configuration.screen;
  return {
    title: `${siteName}, ${screenName}: measured responses`,
    subtitle: `Measured on ${calibration.date} by ${calibration.by}.`,
    blocks: [
      { kind: "paragraph", weight: "lead", text: leadWords(report) },
      facts(report),
      levelTable(report),
      ...(plots && channels.length > 0 ? [plot(report)] : []),
      ...groupsOf(channels).map((group) => deviationTable(group, report)),
      ...remarks(report).map((text) => ({ kind: "paragraph" as const, weight: "note" as const, text })),
      cautionBlock(),
    ],
  };
}

function leadWords({ channels, toleranceDb }: MeasuredReport): string {
  if (channels.length === 0) return "No response of a screen or surround channel was measured.";
  const away = channels.filter(({ bands }) => outside(bands, toleranceDb).length > 0);
  if (away.length === 0)
    return `Every channel lies within ±${toleranceDb} dB of the X-curve, 63 Hz to 12.5 kHz.`;
  const names = away.map(({ channelId }) => channelId).join(", ");
  return `${away.length} of ${channels.length} channels ${away.length === 1 ? "leaves" : "leave"} ±${toleranceDb} dB around the X-curve somewhere: ${names}.`;
}

function facts({ configuration, calibration }: MeasuredReport): Block {
  const set = configuration.equalizations.find(({ id }) => id === calibration.equalizationId);
  return {
    kind: "facts",
    pairs: [
      ["EQ set", set === undefined ? calibration.equalizationId : set.label],
      ["Microphone positions", String(calibration.microphonePositions.length)],
      ...(calibration.notes === undefined ? [] : [["Remarks", calibration.notes] as const]),
    ],
  };
}

function levelTable({ configuration, calibration, channels, toleranceDb }: MeasuredReport): Block {
  return {
    kind: "table",
    caption: "Levels, and distance from the X-curve (63 Hz to 12.5 kHz)",
    rowNames: true,
    columns: [
      { header: "Channel" },
      { header: "Level", align: "end" },
      { header: "Largest", align: "end" },
      { header: "at", align: "end" },
      { header: "rms", align: "end" },
      { header: "Outside", align: "end" },
    ],
    rows: calibration.channels.map(({ channelId, levelDbC, inBandGainDb }) => {
      const bands = channels
        .find((channel) => channel.channelId === channelId)
        ?.bands.filter(({ judged }) => judged);
      const level = `${printDb(levelDbC)}C`;
      if (bands === undefined || bands.length === 0) {
        const inBand = inBandGainDb === undefined ? "" : `${printDbChange(inBandGainDb)} in band`;
        return [channelName(configuration, channelId), level, inBand, "", "", ""];
      }
      const worst = bands.reduce((a, b) => (Math.abs(b.deviationDb) > Math.abs(a.deviationDb) ? b : a));
      const meanSquare = bands.reduce((sum, { deviationDb }) => sum + deviationDb ** 2, 0) / bands.length;
      const count = outside(bands, toleranceDb).length;
      return [
        channelName(configuration, channelId),
        level,
        printDbChange(worst.deviationDb),
        printHz(worst.nominalHz),
        printDb(Math.sqrt(meanSquare)),
        count === 0 ? "none" : `${count} of ${bands.length}`,
      ];
    }),
  };
}

function plot({ configuration, channels, toleranceDb }: MeasuredReport): Block {
  const responses = channels.map(({ channelId, bands }) => ({
    channel: channelName(configuration, channelId),
    bands,
  }));
  return xCurvePlot("Measured third octaves and the X-curve, level in dB over frequency in Hz", responses, {
    toleranceDb,
  });
}

/** As many channels as fit beside each other in 80 columns. */
const BESIDE = 9;

function groupsOf(channels: readonly MeasuredChannel[]): readonly (readonly MeasuredChannel[])[] {
  const count = Math.ceil(channels.length / BESIDE);
  return Array.from({ length: count }, (_, group) => channels.slice(group * BESIDE, (group + 1) * BESIDE));
}

function deviationTable(group: readonly MeasuredChannel[], { toleranceDb }: MeasuredReport): Block {
  const [first] = group;
  return {
    kind: "table",
    caption: `Measured less X-curve, in dB (* outside ±${toleranceDb} dB; in brackets: not judged)`,
    rowNames: true,
    columns: [
      { header: "" },
      ...group.map(({ channelId }) => ({ header: channelId, align: "end" as const })),
    ],
    rows: (first?.bands ?? []).map(({ nominalHz }, k) => [
      printHz(nominalHz),
      ...group.map(({ bands }) => deviationCell(bands[k]!, toleranceDb)),
    ]),
  };
}

function deviationCell({ deviationDb, judged }: XCurveDeviation, toleranceDb: number): Cell {
  const words = printSigned(deviationDb, 1);
  if (!judged) return `(${words})`;
  return Math.abs(deviationDb) > toleranceDb ? { text: `${words}*`, strong: true } : `${words} `;
}

function outside(bands: readonly XCurveDeviation[], toleranceDb: number): readonly XCurveDeviation[] {
  return bands.filter(({ judged, deviationDb }) => judged && Math.abs(deviationDb) > toleranceDb);
}

function remarks({ toleranceDb }: MeasuredReport): readonly string[] {
  return [
    `X-curve: SMPTE ST 202:2010 / ISO 2969:2015 through public transcriptions (63 Hz to 16 kHz). The tolerance of ±${toleranceDb} dB is from memory and was not verified, and the standard's own widens at the ends: what lies outside is worth a look, and no fault by itself.`,
    "Third octaves stand relative to the mean of 500 Hz to 2 kHz, where the curve is 0 dB. Look at the measurement and at the loudspeaker before reaching for the equalizer.",
  ];
}
