import type { ChannelEq, ChannelLabel, EqSet, GraphicLayout } from "../../../src/model/index.ts";
import { chanceFor, unevenness } from "./chance.ts";
import { bell, bypassed, highShelf, placed, type Unplaced } from "./filters.ts";
import { EQ_SHAPES, levelAt, PURPOSE_SHAPES, type Shape, THIRD_OCTAVES_HZ } from "./shapes.ts";

export type Purpose = keyof typeof PURPOSE_SHAPES;

/** An EQ set of a screen: what it is for, and whose room it corrects. */
export interface EqSetDescription {
  readonly id: string;
  readonly label: string;
  readonly purpose: Purpose;
  /** Names the room: "lantern-mill/screen-1". The same room gets the same unevenness in every set. */
  readonly room: string;
  readonly channels: readonly ChannelLabel[];
}

/** An EQ set of third-octave gains, with room modes, comb dips and a treble shelf by parametric filters. */
export function graphicEqSet(description: EqSetDescription): EqSet {
  return eqSet(description, (label) => ({
    channelId: label,
    graphic: {
      layout: "third-octave-27",
      gainsDb: wishedGainsDb(description, label, THIRD_OCTAVES_HZ),
    },
    parametric: placed(detailFilters(description, label)),
  }));
}

/** Nominal mid-bands of the ten octaves from 31.5 Hz to 16 kHz (ISO 266). */
const OCTAVES_HZ: readonly number[] = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000];

/** An EQ set of octave gains for units that have no more, with parametric filters for the detail. */
export function octaveEqSet(description: EqSetDescription): EqSet {
  const layout: GraphicLayout = "octave-10";
  return eqSet(description, (label) => ({
    channelId: label,
    graphic: { layout, gainsDb: wishedGainsDb(description, label, OCTAVES_HZ) },
    parametric: placed(detailFilters(description, label).map(bySlope)),
  }));
}

/** An EQ set of parametric filters only: a bell for every other third octave that asks for half a decibel or more. */
export function parametricEqSet(description: EqSetDescription): EqSet {
  return eqSet(description, (label) => {
    const gainsDb = wishedGainsDb(description, label, THIRD_OCTAVES_HZ);
    const bells = THIRD_OCTAVES_HZ.map((frequencyHz, band) => ({ frequencyHz, gainDb: gainsDb[band]! }))
      .filter(({ gainDb }, band) => band % 2 === 1 && Math.abs(gainDb) >= 0.5)
      .map(({ frequencyHz, gainDb }) => bell(frequencyHz, gainDb, 2.1));
    return {
      channelId: label,
      parametric: placed([...bells, ...detailFilters(description, label)].slice(0, 16)),
    };
  });
}

function eqSet(description: EqSetDescription, channel: (label: ChannelLabel) => ChannelEq): EqSet {
  return { id: description.id, label: description.label, channels: description.channels.map(channel) };
}

/** Channels that hang in mirrored places meet the same room. */
const TWIN_OF: Readonly<Partial<Record<ChannelLabel, ChannelLabel>>> = {
  R: "L",
  Rs: "Ls",
  Rss: "Lss",
  Rrs: "Lrs",
  Rc: "Lc",
};

function shapeOf(label: ChannelLabel): Shape {
  if (label === "LFE") return EQ_SHAPES.lfe;
  if (label === "HI" || label === "VIN") return EQ_SHAPES.headset;
  return ["L", "R", "C", "Lc", "Rc"].includes(label) ? EQ_SHAPES.screen : EQ_SHAPES.surround;
}

function wishedGainsDb(
  { room, purpose }: EqSetDescription,
  label: ChannelLabel,
  bandsHz: readonly number[],
): number[] {
  const shared = unevenness(chanceFor(`${room}/${TWIN_OF[label] ?? label}/room`), bandsHz.length, 0.9);
  const own = unevenness(chanceFor(`${room}/${label}/place`), bandsHz.length, 0.4);
  return bandsHz.map((frequencyHz, band) => {
    if (label === "LFE" && frequencyHz > 160) return 0;
    const lean = label === "LFE" ? 0 : levelAt(PURPOSE_SHAPES[purpose], frequencyHz);
    return levelAt(shapeOf(label), frequencyHz) + lean + shared[band]! + own[band]!;
  });
}

/** What a third of an octave is too coarse for. */
function detailFilters({ room, purpose }: EqSetDescription, label: ChannelLabel): Unplaced[] {
  if (label === "HI" || label === "VIN") return [bell(3000, 1.5, 1), bypassed(bell(1000, 0, 1))];
  const random = chanceFor(`${room}/${TWIN_OF[label] ?? label}/modes`);
  const between = (low: number, high: number) => low + (high - low) * random();
  const mode = bell(between(34, 78), -between(2, 5), between(3.5, 7));
  const second = bell(between(90, 210), -between(1, 3), between(3, 6));
  if (label === "LFE") return [mode, bell(between(80, 105), -between(1, 2.5), between(3, 5))];
  const comb = bell(between(1100, 3400), -between(1, 2.5), between(2, 4));
  return [
    mode,
    second,
    comb,
    highShelf(9000, purpose === "speech" ? -1 : 1, { q: 0.7 }),
    bypassed(bell(1000, 0, 1)),
  ];
}

/** The same filter for a unit whose shelves are set by slope: S = 1 where Q is 0.707 (Audio EQ Cookbook). */
function bySlope(filter: Unplaced): Unplaced {
  if (filter.kind === "peaking") return filter;
  const { q: _q, ...rest } = filter;
  return { ...rest, slope: 1 };
}
