import { CALIBRATION_BANDS } from "../../../acoustics/index.ts";
import { BoothkeepError } from "../../../base/errors/index.ts";
import { dbFromPower, powerFromDb } from "../../../base/units/index.ts";
import {
  type Calibration,
  type ChannelCalibration,
  type Configuration,
  inspectDocument,
  type MicrophonePosition,
} from "../../../model/index.ts";
import type { MeasuredColumn } from "./measurement.ts";

/** When, by whom and where was measured. */
export interface MeasuringCircumstances {
  /** Day of the measurement, RFC 3339 full-date. */
  readonly date: string;
  /** Who measured: a team or a role. */
  readonly by: string;
  /** EQ set that was active. @defaultValue that of the calibration before, or the only one */
  readonly equalizationId?: string;
  /** @defaultValue those of the calibration before */
  readonly positions?: readonly MicrophonePosition[];
}

/** What became of the columns of one channel. */
export interface TakenChannel {
  readonly channelId: string;
  /** How many microphone positions were averaged; 1 where the table gives the channel in one column. */
  readonly positions: number;
  /** Largest difference between two positions in one third octave from 63 Hz to 12.5 kHz, in dB; 0 for one. */
  readonly spreadDb: number;
  /** What was taken off so that the mean of 500 Hz to 2 kHz is 0 dB. */
  readonly referenceDb: number;
}

/** A configuration with new measurements in its calibration. */
export interface TakenMeasurement {
  readonly configuration: Configuration;
  readonly channels: readonly TakenChannel[];
  /** Channels that were not measured now and keep what was measured before. */
  readonly keptChannels: readonly string[];
}

/** Bands of the reference: 500 Hz to 2 kHz. */
const REFERENCE = { first: -3, last: 3 } as const;

/**
 * Takes measured third octaves into the calibration. Levels at several positions are averaged by power in each band, as is
 * the C-weighted level (SMPTE ST 202:2010, clause 5, through a public secondary source); then the mean of the dB values of
 * 500 Hz to 2 kHz is taken off. What is kept is rounded to 0.01 dB. Channels that were not measured keep what they had.
 *
 * @throws BoothkeepError table.does-not-fit
 */
export function takeMeasurement(
  configuration: Configuration,
  columns: readonly MeasuredColumn[],
  circumstances: MeasuringCircumstances,
): TakenMeasurement {
  const before = configuration.calibration;
  const ids = [...new Set(columns.map(({ channelId }) => channelId))];
  checkPositions(columns, circumstances.positions ?? before?.microphonePositions ?? []);
  const taken = ids.map((channelId) => channelFrom(channelId, columns, before));
  const keptChannels = (before?.channels ?? [])
    .map(({ channelId }) => channelId)
    .filter((id) => !ids.includes(id));
  const order = configuration.channels.map(({ id }) => id);
  const channels = [
    ...(before?.channels ?? []).filter(({ channelId }) => !ids.includes(channelId)),
    ...taken.map(({ channel }) => channel),
  ].sort((a, b) => order.indexOf(a.channelId) - order.indexOf(b.channelId));
  const calibration: Calibration = {
    date: circumstances.date,
    by: circumstances.by,
    equalizationId: circumstances.equalizationId ?? before?.equalizationId ?? onlyEqualization(configuration),
    microphonePositions: [...(circumstances.positions ?? before?.microphonePositions ?? [])],
    channels,
    ...notesFor(before, keptChannels, circumstances.date),
  };
  const next = { ...configuration, calibration };
  checkFits(next);
  return { configuration: next, channels: taken.map(({ account }) => account), keptChannels };
}

function channelFrom(channelId: string, all: readonly MeasuredColumn[], before: Calibration | undefined) {
  const columns = all.filter((column) => column.channelId === channelId);
  const old = before?.channels.find((channel) => channel.channelId === channelId);
  const bands = Array.from(
    { length: CALIBRATION_BANDS.last - CALIBRATION_BANDS.first + 1 },
    (_, k) => CALIBRATION_BANDS.first + k,
  );
  const averages = bands.map((band) => powerAverage(columns.map(({ levelsDb }) => levelsDb.get(band)!)));
  const reference = averages.filter((_, k) => bands[k]! >= REFERENCE.first && bands[k]! <= REFERENCE.last);
  const referenceDb = reference.reduce((sum, levelDb) => sum + levelDb, 0) / reference.length;
  const levelDbC = averaged(columns, "levelDbC") ?? old?.levelDbC;
  if (levelDbC === undefined) {
    throw doesNotFit(
      `The table has no C-weighted level of '${channelId}', and none was measured before.`,
      "Add a row 'Measured level (dB SPL)' below the third octaves: pink noise at -20 dBFS RMS, C-weighted, slow.",
    );
  }
  const inBandGainDb = averaged(columns, "inBandGainDb") ?? old?.inBandGainDb;
  const channel: ChannelCalibration = {
    channelId,
    levelDbC,
    ...(inBandGainDb === undefined ? {} : { inBandGainDb }),
    thirdOctavesDb: averages.map((levelDb) => hundredths(levelDb - referenceDb)),
  };
  const account: TakenChannel = {
    channelId,
    positions: columns.length,
    spreadDb: hundredths(spreadOf(columns)),
    referenceDb: hundredths(referenceDb),
  };
  return { channel, account };
}

function powerAverage(levelsDb: readonly number[]): number {
  return dbFromPower(levelsDb.reduce((sum, levelDb) => sum + powerFromDb(levelDb), 0) / levelsDb.length);
}

/** The average of a value that every position of a channel has. */
function averaged(
  columns: readonly MeasuredColumn[],
  member: "levelDbC" | "inBandGainDb",
): number | undefined {
  const values = columns.flatMap((column) => column[member] ?? []);
  if (values.length === 0) return undefined;
  if (values.length < columns.length) {
    throw doesNotFit(
      `The level of '${columns[0]!.channelId}' is there for some microphone positions only.`,
      "Fill it in for each of them.",
    );
  }
  return hundredths(powerAverage(values));
}

function spreadOf(columns: readonly MeasuredColumn[]): number {
  const bands = [...columns[0]!.levelsDb.keys()].filter((band) => band >= -12 && band <= 11);
  return Math.max(
    ...bands.map((band) => {
      const levels = columns.map(({ levelsDb }) => levelsDb.get(band)!);
      return Math.max(...levels) - Math.min(...levels);
    }),
  );
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}

function checkPositions(columns: readonly MeasuredColumn[], known: readonly MicrophonePosition[]): void {
  const missing = columns.find(
    ({ positionId }) => positionId !== undefined && !known.some(({ id }) => id === positionId),
  );
  if (missing === undefined) return;
  const names = known.map(({ id }) => id).join(", ");
  throw doesNotFit(
    `There is no microphone position '${missing.positionId}'.`,
    `${names === "" ? "The calibration has none" : `There are: ${names}`}. Give others as a table of their own ('--positions').`,
  );
}

function onlyEqualization({ equalizations }: Configuration): string {
  const [only, ...others] = equalizations;
  if (only !== undefined && others.length === 0) return only.id;
  throw doesNotFit(
    "It is not clear which EQ set was active while measuring.",
    `Name it ('--eq-set'): ${equalizations.map(({ id }) => id).join(", ") || "there is none"}.`,
  );
}

/** Says in the remarks which channels were measured on another day. */
function notesFor(
  before: Calibration | undefined,
  kept: readonly string[],
  date: string,
): { readonly notes?: string } {
  const old = before?.notes;
  if (before === undefined || kept.length === 0) return old === undefined ? {} : { notes: old };
  const remark = `Not measured on ${date}, kept from ${before.date}: ${kept.join(", ")}.`;
  return { notes: old === undefined || old === "" ? remark : `${old} ${remark}` };
}

function checkFits(configuration: Configuration): void {
  const { shape } = inspectDocument(JSON.stringify(configuration), { expect: "boothkeep.configuration" });
  const [first] = shape.problems;
  if (first !== undefined) {
    throw doesNotFit(
      `The calibration would not be valid: ${first.words}`,
      "Mend the value or the option that it comes from.",
    );
  }
  const { calibration, equalizations } = configuration;
  if (equalizations.some(({ id }) => id === calibration?.equalizationId)) return;
  throw doesNotFit(
    `There is no EQ set '${calibration?.equalizationId}'.`,
    `There are: ${equalizations.map(({ id }) => id).join(", ")}.`,
  );
}

function doesNotFit(message: string, next: string): BoothkeepError {
  return new BoothkeepError("table.does-not-fit", message, { next });
}
