import type { ChannelLabel, Format, Route, Source } from "../../../src/model/index.ts";

/**
 * Positions of ISDCF Document 4 (2017-06-29) that carry a loudspeaker channel or a headset feed. 13 (motion data),
 * 14 (sync signal), 15 (sign language video) and 16 are never routed.
 */
const DOC4_POSITIONS: Readonly<Partial<Record<Format, Readonly<Partial<Record<ChannelLabel, number>>>>>> = {
  mono: { C: 3, HI: 7, VIN: 8 },
  "5.1": { L: 1, R: 2, C: 3, LFE: 4, Ls: 5, Rs: 6, HI: 7, VIN: 8 },
  "7.1SDS": { L: 1, R: 2, C: 3, LFE: 4, Ls: 5, Rs: 6, HI: 7, VIN: 8, Lc: 9, Rc: 10 },
  "7.1DS": { L: 1, R: 2, C: 3, LFE: 4, Lss: 5, Rss: 6, HI: 7, VIN: 8, Lrs: 11, Rrs: 12 },
};

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
 * The crossings by which a source plays one format in an auditorium: each channel of the format goes to the program
 * channel of its name; where the auditorium has none, it is spread.
 */
export function routing(source: Source, format: Format, auditorium: readonly ChannelLabel[]): Route[] {
  return channelsOf(source, format).flatMap(({ label, sourceChannelId }) =>
    targetsOf(label, auditorium).map(([target, gainDb]) => ({
      id: `${label}-${target}`,
      sourceChannelId,
      channelId: target,
      gainDb,
    })),
  );
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

function channelsOf(
  source: Source,
  format: Format,
): { readonly label: ChannelLabel; readonly sourceChannelId: string }[] {
  if (source.assignment === "isdcf-doc4-2017") {
    const positions = DOC4_POSITIONS[format];
    if (positions === undefined) throw new Error(`ISDCF Document 4 has no positions for ${format}`);
    return Object.entries(positions).map(([label, position]) => ({
      label: label as ChannelLabel,
      sourceChannelId: source.channels[position - 1]!.id,
    }));
  }
  return source.channels.flatMap(({ id, carries }) => {
    if (carries === undefined || carries === "unused") return [];
    return [{ label: (carries === "mono" ? "C" : carries) as ChannelLabel, sourceChannelId: id }];
  });
}
