import type {
  ChannelLabel,
  Format,
  LoudspeakerData,
  LoudspeakerModel,
  Placement,
  ScreenDescription,
  UnitProfile,
} from "../../../model/index.ts";
import { FORMAT_CHANNELS, positionOf } from "../../../model/index.ts";
import { CONNECTORS_OF_SOURCE } from "../../../profile/index.ts";
import { PLACEMENTS, targetsOf } from "../../../rules/index.ts";
import { filtersOf } from "../crossovers.ts";

/** Channels of a server (ISDCF Document 4). */
const SERVER_CHANNELS = 16;

const FORMATS = Object.keys(FORMAT_CHANNELS) as readonly Format[];

export type SourceKind = ScreenDescription["source"]["kind"];
export type Drive = ScreenDescription["screenLoudspeakers"]["drive"];

/** Kinds of server connection that carry at least one format. */
export function sourceKinds(profile: UnitProfile): readonly SourceKind[] {
  const kinds: readonly SourceKind[] = ["aes3", "aes67", "analog-multichannel"];
  return kinds.filter((kind) => FORMATS.some((format) => isCarried(format, kind, profile)));
}

/** Formats that the unit has the channels for and that come in on this connection. */
export function formatsOf(kind: SourceKind, profile: UnitProfile): readonly Format[] {
  const labels: ReadonlySet<ChannelLabel> = new Set(profile.channels.labels);
  return FORMATS.filter(
    (format) =>
      isCarried(format, kind, profile) &&
      [...FORMAT_CHANNELS[format], "L", "C", "R"].every((label) => labels.has(label as ChannelLabel)),
  );
}

/** Formats besides the auditorium's own that its channels can play. */
export function playableFormats(
  channels: ReadonlySet<ChannelLabel>,
  candidates: readonly Format[],
): readonly Format[] {
  return candidates.filter((format) =>
    FORMAT_CHANNELS[format].every((label) => targetsOf(label, channels).length > 0),
  );
}

function isCarried(format: Format, kind: SourceKind, profile: UnitProfile): boolean {
  const connectors = profile.connectors.filter(
    (connector) => connector.direction === "input" && CONNECTORS_OF_SOURCE[kind].includes(connector.kind),
  ).length;
  const channels = Math.min(connectors, SERVER_CHANNELS, profile.sources.channelsMax);
  return FORMAT_CHANNELS[format].every((label) => {
    const position = positionOf(format, label);
    return position !== undefined && position <= channels;
  });
}

/** Where the surround arrays of a format hang, a place for each channel. */
export function surroundPlaces(format: Format): readonly Placement[] {
  return FORMAT_CHANNELS[format].flatMap((label) =>
    PLACEMENTS[label].slice(0, 1).filter((placement) => placement.startsWith("surround")),
  );
}

/** Models whose crossovers the unit can run: for behind the screen, for the walls, for the lowest octaves. */
export function modelsFor(
  use: "screen" | "surround" | "subwoofer",
  { models }: LoudspeakerData,
  profile: UnitProfile,
): readonly LoudspeakerModel[] {
  return models.filter((model) => {
    const isSub = model.ways.some(({ band }) => band === "sub");
    if (isSub !== (use === "subwoofer")) return false;
    if (use !== "screen" && model.ways.length > 1) return false;
    try {
      return filtersOf(model, profile).length > 0;
    } catch {
      return false;
    }
  });
}
