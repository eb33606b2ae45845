import { BoothkeepError } from "../../base/errors/index.ts";
import type { ChannelLabel, Connector, Output, ScreenDescription, UnitProfile } from "../../model/index.ts";
import { CHANNELS } from "../../model/index.ts";
import { filtersOf } from "./crossovers.ts";
import type { startDelays } from "./delays.ts";
import { startGains } from "./levels.ts";
import type { Room } from "./room.ts";

/** Gain of feeds that are no loudspeaker of the auditorium, in dB: low enough to turn up by ear (common practice, no source). */
const FEED_GAIN_DB = -10;

/** Each channel's share in the booth monitor, in dB: eight equal incoherent channels stay below one at full level. */
const MONITOR_SHARE_DB = -12;

type Unconnected = Omit<Output, "connectorId">;

/**
 * Every output of the unit along its rear panel: loudspeakers way by way, then headset feeds and the monitor, then spare
 * ones, muted. Polarities are all normal.
 *
 * @throws BoothkeepError commission.does-not-fit, commission.no-crossover
 */
export function outputsFor(
  description: ScreenDescription,
  room: Room,
  { profile, channelDelays }: { readonly profile: UnitProfile; readonly channelDelays: ChannelDelays },
): readonly Output[] {
  const wanted = [...loudspeakerOutputs(room, profile, channelDelays), ...feedOutputs(description, room)];
  const connectors = outputConnectors(profile);
  if (wanted.length > connectors.length) {
    throw new BoothkeepError(
      "commission.does-not-fit",
      `The room needs ${wanted.length} outputs; ${profile.label} has ${connectors.length}.`,
      {
        place: { pointer: "/unit/profileId", id: profile.id },
        next: "Choose a larger unit, put arrays together on one output, or use loudspeakers with fewer ways.",
        data: { needed: wanted.length, available: connectors.length },
      },
    );
  }
  return connectors.map((connector, index) => ({
    ...(wanted[index] ?? spare(index + 1)),
    connectorId: connector.id,
  }));
}

export type ChannelDelays = ReturnType<typeof startDelays>;

function loudspeakerOutputs({ placed }: Room, profile: UnitProfile, delays: ChannelDelays): Unconnected[] {
  const gains = startGains(placed);
  return placed.flatMap(({ loudspeaker, model, mix }) => {
    const filters = filtersOf(model, profile);
    return model.ways.map(
      (way, index): Unconnected => ({
        ...flat(
          model.ways.length === 1 ? loudspeaker.id : `${loudspeaker.id}-${way.id}`,
          model.ways.length === 1 ? loudspeaker.label : `${loudspeaker.label} ${way.id}`,
        ),
        feeds: { kind: "loudspeaker", loudspeakerId: loudspeaker.id, wayId: way.id },
        mix,
        ...filters[index]!,
        gainDb: gains.get(loudspeaker.id)!.get(way.id)!,
        delayMs: delays.loudspeakers.get(loudspeaker.id)! + (way.alignMs ?? 0),
      }),
    );
  });
}

function feedOutputs(description: ScreenDescription, { channels }: Room): Unconnected[] {
  const monitored = channels.filter((label) => CHANNELS[label].role !== "headset");
  const feed = (
    id: string,
    label: string,
    kind: "hearing-impaired" | "narration" | "booth-monitor",
    played: readonly (readonly [ChannelLabel, number])[],
  ): Unconnected => ({
    ...flat(id, label),
    feeds: { kind },
    mix: played.map(([channelId, gainDb]) => ({ channelId, gainDb })),
    gainDb: FEED_GAIN_DB,
  });
  return [
    ...(description.hearingImpaired === true
      ? [feed("hearing", "Hearing impaired", "hearing-impaired", [["HI", 0]])]
      : []),
    ...(description.narration === true ? [feed("narration", "Narration", "narration", [["VIN", 0]])] : []),
    ...(description.boothMonitor === true
      ? [
          feed(
            "monitor",
            "Booth monitor",
            "booth-monitor",
            monitored.map((label) => [label, MONITOR_SHARE_DB] as const),
          ),
        ]
      : []),
  ];
}

function spare(number: number): Unconnected {
  return { ...flat(`spare-${number}`, `Spare ${number}`), mute: true };
}

function flat(id: string, label: string): Unconnected {
  return {
    id,
    label,
    feeds: { kind: "spare" },
    mix: [],
    filters: [],
    gainDb: 0,
    delayMs: 0,
    polarity: "normal",
    mute: false,
  };
}

function outputConnectors({ connectors }: UnitProfile): readonly Connector[] {
  return connectors
    .filter(({ direction }) => direction === "output")
    .sort((a, b) => a.rack - b.rack || a.position - b.position);
}
