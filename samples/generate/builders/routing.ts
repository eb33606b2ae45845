import {
  type Carried,
  CHANNELS,
  type ChannelLabel,
  carriedBy,
  FORMAT_CHANNELS,
  type Format,
  type Route,
  type Source,
} from "../../../src/model/index.ts";

/** Where a channel of the program goes that the auditorium lacks: each target with its gain in dB. */
type Spread = Readonly<Partial<Record<ChannelLabel, readonly (readonly [ChannelLabel, number])[]>>>;

/** 5.1 in a 7.1DS auditorium: side and rear arrays share the surround, -3 dB each (common practice, no source). */
const SURROUND_TO_SIDE_AND_REAR: Spread = {
  Ls: [
    ["Lss", -3],
    ["Lrs", -3],
  ],
  Rs: [
    ["Rss", -3],
    ["Rrs", -3],
  ],
};

/**
 * The crossings by which a source plays one format in an auditorium: each channel of the format, and the headset feeds
 * where the source has them, goes to the program channel of its name; where the auditorium has none, it is spread.
 */
export function routing(source: Source, format: Format, auditorium: readonly ChannelLabel[]): Route[] {
  return source.channels.flatMap((channel) => {
    const label = programLabel(carriedBy(source, channel, format), format);
    if (label === undefined) return [];
    return targetsOf(label, auditorium).map(([target, gainDb]) => ({
      id: `${label}-${target}`,
      sourceChannelId: channel.id,
      channelId: target,
      gainDb,
    }));
  });
}

/** The channel of the format, or the headset feed, that a source channel brings; undefined: nothing to be heard. */
function programLabel(carried: Carried | undefined, format: Format): ChannelLabel | undefined {
  const label = carried === "mono" ? "C" : (carried as ChannelLabel);
  return FORMAT_CHANNELS[format].includes(label) || CHANNELS[label]?.role === "headset" ? label : undefined;
}

function targetsOf(
  label: ChannelLabel,
  auditorium: readonly ChannelLabel[],
): readonly (readonly [ChannelLabel, number])[] {
  if (auditorium.includes(label)) return [[label, 0]];
  const spread = SURROUND_TO_SIDE_AND_REAR[label];
  if (spread === undefined) throw new Error(`No way for ${label} into ${auditorium.join(" ")}`);
  return spread;
}
