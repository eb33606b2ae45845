import type {
  ChannelLabel,
  Crossover,
  MicrophonePosition,
  Network,
  Screen,
  Unit,
} from "../../../../src/model/index.ts";
import type { PresetWish } from "../presets.ts";

/** What tells one large 7.1DS auditorium from another. */
export interface LargeAuditorium {
  readonly screen: Screen;
  readonly unit: Unit;
  readonly network: Network;
  /** Distances from the reference seat to the nearest cabinet, in metres. */
  readonly distancesM: {
    readonly left: number;
    readonly center: number;
    readonly right: number;
    readonly subs: readonly [number, number];
    /** Front half and rear half of each side array. */
    readonly side: readonly [number, number];
    /** Half towards the center line and half towards the corner of each rear array. */
    readonly rear: readonly [number, number];
  };
  /** Cabinets in each half of a side array, and in each half of a rear array. */
  readonly boxes: { readonly side: number; readonly rear: number };
  /** How much later than the screen the surrounds arrive at the reference seat, in ms. */
  readonly surroundAfterMs: number;
  /** lf to mf, mf to hf. */
  readonly splits: readonly [Crossover, Crossover];
  readonly levelsDb: Readonly<Partial<Record<ChannelLabel, number>>>;
  readonly trimsDb: { readonly lf: number; readonly mf: number; readonly hf: number };
  readonly presets: readonly PresetWish[];
  readonly calibration: { readonly date: string; readonly positions: readonly MicrophonePosition[] };
  readonly notes: string;
}

/** Program channels of a 7.1DS auditorium with headset feeds. */
export const LARGE_CHANNELS: readonly ChannelLabel[] = [
  "L",
  "R",
  "C",
  "LFE",
  "Lss",
  "Rss",
  "Lrs",
  "Rrs",
  "HI",
  "VIN",
];
