import type { ChannelLabel, Format, Source, SourceChannel } from "./generated/configuration.ts";

/** What a channel is for. `headset`: HI and narration, for personal headsets only. */
export type ChannelRole = "screen" | "lfe" | "surround" | "headset";

/** What a standard says of a channel. */
export interface ChannelFacts {
  /** Name in SMPTE ST 428-12:2013. */
  readonly name: string;
  /** Tag symbol of the channel (SMPTE ST 377-4). */
  readonly tagSymbol: string;
  readonly role: ChannelRole;
}

/**
 * The channels of SMPTE ST 428-12:2013. Names and symbols read through two open implementations that cite the
 * standard; they spell VIN's name differently ("Visually Impaired Narrative"), its symbol alike.
 */
export const CHANNELS: Readonly<Record<ChannelLabel, ChannelFacts>> = {
  L: { name: "Left", tagSymbol: "chL", role: "screen" },
  R: { name: "Right", tagSymbol: "chR", role: "screen" },
  C: { name: "Center", tagSymbol: "chC", role: "screen" },
  LFE: { name: "LFE", tagSymbol: "chLFE", role: "lfe" },
  Ls: { name: "Left Surround", tagSymbol: "chLs", role: "surround" },
  Rs: { name: "Right Surround", tagSymbol: "chRs", role: "surround" },
  Lss: { name: "Left Side Surround", tagSymbol: "chLss", role: "surround" },
  Rss: { name: "Right Side Surround", tagSymbol: "chRss", role: "surround" },
  Lrs: { name: "Left Rear Surround", tagSymbol: "chLrs", role: "surround" },
  Rrs: { name: "Right Rear Surround", tagSymbol: "chRrs", role: "surround" },
  Lc: { name: "Left Center", tagSymbol: "chLc", role: "screen" },
  Rc: { name: "Right Center", tagSymbol: "chRc", role: "screen" },
  Cs: { name: "Center Surround", tagSymbol: "chCs", role: "surround" },
  HI: { name: "Hearing Impaired", tagSymbol: "chHI", role: "headset" },
  VIN: { name: "Visually Impaired-Narrative", tagSymbol: "chVIN", role: "headset" },
};

/**
 * The channels of each soundfield group of SMPTE ST 428-12:2013, in its order; stereo is SMPTE ST 2067-8:2013
 * (Standard Stereo), no group of ST 428-12.
 */
export const FORMAT_CHANNELS: Readonly<Record<Format, readonly ChannelLabel[]>> = {
  mono: ["C"],
  stereo: ["L", "R"],
  "5.1": ["L", "R", "C", "LFE", "Ls", "Rs"],
  "6.1": ["L", "R", "C", "LFE", "Ls", "Rs", "Cs"],
  "7.1DS": ["L", "R", "C", "LFE", "Lss", "Rss", "Lrs", "Rrs"],
  "7.1SDS": ["L", "R", "C", "LFE", "Ls", "Rs", "Lc", "Rc"],
};

/** The format whose group has exactly these channels, in whatever order; undefined if there is none. */
export function formatOf(channels: readonly ChannelLabel[]): Format | undefined {
  const wanted = [...new Set(channels)].sort().join(" ");
  const formats = Object.keys(FORMAT_CHANNELS) as Format[];
  return formats.find((format) => [...FORMAT_CHANNELS[format]].sort().join(" ") === wanted);
}

/** What a channel of a source can carry: a labelled channel, data written as PCM, a plain mono signal, nothing. */
export type Carried = NonNullable<SourceChannel["carries"]>;

/** Data carried as PCM: noise at full scale if it is played. */
export const DATA_SIGNALS: readonly Carried[] = ["motion-data", "sync-signal", "sign-language-video"];

/** Positions that mean the same in every format of ISDCF Document 4. */
const DOC4_COMMON: Readonly<Record<number, Carried>> = {
  1: "L",
  2: "R",
  3: "C",
  4: "LFE",
  7: "HI",
  8: "VIN",
  13: "motion-data",
  14: "sync-signal",
  15: "sign-language-video",
  16: "unused",
};

const DOC4_BY_FORMAT: Readonly<Record<Format, Readonly<Record<number, Carried>>>> = {
  mono: {},
  stereo: {},
  "5.1": { 5: "Ls", 6: "Rs" },
  // Document 4 has no column for 6.1: where Cs stands must be said by the source's own labels.
  "6.1": { 5: "Ls", 6: "Rs" },
  "7.1DS": { 5: "Lss", 6: "Rss", 11: "Lrs", 12: "Rrs" },
  "7.1SDS": { 5: "Ls", 6: "Rs", 9: "Lc", 10: "Rc" },
};

/**
 * What a position (from 1) carries in a program of a format by ISDCF Document 4, "16-Channel Audio Packaging Guide",
 * 2017-06-29; undefined where the document says nothing. Position 14 holds the sync signal in SMPTE packages only,
 * position 15 sign-language video since the 2017 edition.
 */
export function carriedAtPosition(format: Format, position: number): Carried | undefined {
  return DOC4_BY_FORMAT[format][position] ?? DOC4_COMMON[position];
}

/** The position (from 1) of a label in a program of a format by ISDCF Document 4; undefined if it has none. */
export function positionOf(format: Format, carried: Carried): number | undefined {
  for (let position = 1; position <= 16; position += 1) {
    if (carriedAtPosition(format, position) === carried) return position;
  }
  return undefined;
}

/**
 * What a source channel carries in a program of a format; undefined where the source does not say. Never guessed:
 * recommendations differ (HI and VIN stand at 7 and 8 in ISDCF Document 4, at 9 and 10 in SMPTE ST 429-2's
 * configurations 2, 3 and 5; the latter positions from memory).
 */
export function carriedBy(source: Source, channel: SourceChannel, format: Format): Carried | undefined {
  return source.assignment === "as-labelled" ? channel.carries : carriedAtPosition(format, channel.position);
}

/** Whether a signal may reach a loudspeaker of the auditorium. That data and headset feeds may not is common practice, no source. */
export function isForAuditorium(carried: Carried): boolean {
  if (DATA_SIGNALS.includes(carried) || carried === "unused") return false;
  return carried === "mono" || CHANNELS[carried as ChannelLabel].role !== "headset";
}

/** A list of channels held against a format's group. */
export interface GroupCheck {
  /** Channels of the group that are not there, in the group's order. */
  readonly missing: readonly ChannelLabel[];
  /** Channels for the auditorium that do not belong to the group. */
  readonly outside: readonly ChannelLabel[];
  /** Channels that must not reach a loudspeaker. */
  readonly headset: readonly ChannelLabel[];
  /** Channels that are there more than once. */
  readonly twice: readonly ChannelLabel[];
}

/** Holds the channels that a program feeds to loudspeakers against the group of its format. */
export function checkGroup(format: Format, labels: readonly ChannelLabel[]): GroupCheck {
  const group = FORMAT_CHANNELS[format];
  const present = [...new Set(labels)];
  const isHeadset = (label: ChannelLabel) => CHANNELS[label].role === "headset";
  return {
    missing: group.filter((label) => !present.includes(label)),
    outside: present.filter((label) => !group.includes(label) && !isHeadset(label)),
    headset: present.filter(isHeadset),
    twice: present.filter((label) => labels.indexOf(label) !== labels.lastIndexOf(label)),
  };
}
