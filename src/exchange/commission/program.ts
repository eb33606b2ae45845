import { BoothkeepError } from "../../base/errors/index.ts";
import {
  type ChannelLabel,
  carriedBy,
  FORMAT_CHANNELS,
  type Format,
  type Preset,
  type Route,
  type ScreenDescription,
  type Source,
  type UnitProfile,
} from "../../model/index.ts";
import { CONNECTORS_OF_SOURCE, faderMarkAt, unitLatencyMs } from "../../profile/index.ts";
import { targetsOf } from "../../rules/index.ts";

/** Channels of a server (ISDCF Document 4). */
const SERVER_CHANNELS = 16;

/** A channel that plays from two others goes to both at this level, in dB (equal-power split). */
const SHARED_DB = -3;

/** The server on the unit's first inputs of its kind. @throws BoothkeepError commission.does-not-fit */
export function sourceOf({ source }: ScreenDescription, profile: UnitProfile): Source {
  const kinds = CONNECTORS_OF_SOURCE[source.kind];
  const connectors = profile.connectors
    .filter(({ direction, kind }) => direction === "input" && kinds.includes(kind))
    .sort((a, b) => a.rack - b.rack || a.position - b.position)
    .slice(0, Math.min(SERVER_CHANNELS, profile.sources.channelsMax));
  if (connectors.length === 0) {
    const offered = profile.connectors
      .filter(({ direction }) => direction === "input")
      .map(({ kind }) => kind);
    throw new BoothkeepError("commission.does-not-fit", `${profile.label} has no ${source.kind} inputs.`, {
      place: { pointer: "/source/kind" },
      next: `It has: ${[...new Set(offered)].join(", ")}. Choose another kind, or another unit.`,
    });
  }
  return {
    id: "server",
    label: "Server",
    kind: source.kind,
    assignment: "isdcf-doc4-2017",
    latencyMs: source.latencyMs,
    channels: connectors.map((connector, index) => ({
      id: `server-${String(index + 1).padStart(2, "0")}`,
      position: index + 1,
      connectorId: connector.id,
      gainDb: 0,
    })),
  };
}

export interface PresetsInput {
  readonly source: Source;
  readonly channels: readonly ChannelLabel[];
  readonly equalizationId: string;
  readonly profile: UnitProfile;
  readonly sampleRateHz: number;
}

/** A preset for each format, on the unit's first slots. The program delay brings the sound in step with the picture. */
export function presetsOf(
  { formats, screen, source: { latencyMs } }: ScreenDescription,
  input: PresetsInput,
) {
  const { profile, sampleRateHz } = input;
  const delayMs = Math.max(0, screen.videoLatencyMs - latencyMs - unitLatencyMs(profile, sampleRateHz));
  return formats.map(
    (format, index): Preset => ({
      id: `program-${format.replaceAll(".", "").toLowerCase()}`,
      slot: profile.presets.slotMin + index,
      label: format,
      sourceId: input.source.id,
      format,
      equalizationId: input.equalizationId,
      levelDb: 0,
      delayMs,
      faderMark: faderMarkAt(profile.fader, 0),
      routing: routingOf(format, index, input),
    }),
  );
}

function routingOf(format: Format, index: number, { source, channels, profile }: PresetsInput): Route[] {
  const present = new Set(channels);
  const headsets = (["HI", "VIN"] as const).filter((label) => present.has(label) && format !== "mono");
  const wanted: readonly ChannelLabel[] = [...FORMAT_CHANNELS[format], ...headsets];
  return wanted.flatMap((label) => {
    const from = source.channels.find((channel) => carriedBy(source, channel, format) === label);
    const targets = targetsOf(label, present);
    if (from === undefined && headsets.includes(label as "HI")) return [];
    if (from === undefined) throw notCarried(format, label, index, source.channels.length, profile);
    if (targets.length === 0) throw notPlayed(format, label, index);
    return targets.map((channelId) => ({
      id: `${label}-to-${channelId}`,
      sourceChannelId: from.id,
      channelId,
      gainDb: targets.length > 1 ? SHARED_DB : 0,
    }));
  });
}

function notCarried(format: Format, label: ChannelLabel, index: number, count: number, profile: UnitProfile) {
  return new BoothkeepError(
    "commission.does-not-fit",
    `${label} of ${format} does not come in: ${profile.label} takes ${count} channels of this source by ISDCF Document 4.`,
    {
      place: { pointer: `/formats/${index}`, id: format },
      next: "Take the format out, choose a source with more channels, or add the preset by hand with a labelled source.",
    },
  );
}

function notPlayed(format: Format, label: ChannelLabel, index: number) {
  return new BoothkeepError("commission.does-not-fit", `Nothing in this room plays ${label} of ${format}.`, {
    place: { pointer: `/formats/${index}`, id: format },
    next:
      label === "LFE"
        ? "Describe the subwoofers, or take the format out."
        : `Describe loudspeakers for ${label}, or take the format out.`,
  });
}
