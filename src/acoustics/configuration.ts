import type { CrossoverHalf } from "./crossovers/crossover-families.ts";
import type { ParametricFilter } from "./filters/filter-kinds.ts";
import type { FirFilter } from "./fir.ts";
import type { GraphicEqualizer } from "./graphic.ts";

/**
 * The part of a configuration that makes sound, in signal-flow order. Every list is keyed by id. A whole configuration
 * document fits this type as it is.
 */
export interface AcousticConfiguration {
  readonly unit: { readonly sampleRateHz: number };
  readonly sources: readonly AcousticSource[];
  readonly channels: readonly AcousticChannel[];
  readonly equalizations: readonly AcousticEqualization[];
  readonly presets: readonly AcousticPreset[];
  readonly outputs: readonly AcousticOutput[];
  readonly loudspeakers: readonly AcousticLoudspeaker[];
}

/** A source: what it brings in, before any preset. */
export interface AcousticSource {
  readonly id: string;
  readonly channels: readonly { readonly id: string; readonly gainDb: number }[];
}

/** A program channel. */
export interface AcousticChannel {
  readonly id: string;
  readonly levelDb: number;
  readonly delayMs: number;
  readonly mute: boolean;
}

/** An EQ set: what it does to each program channel; a channel that is not listed passes unchanged. */
export interface AcousticEqualization {
  readonly id: string;
  readonly channels: readonly {
    readonly channelId: string;
    readonly graphic?: GraphicEqualizer | undefined;
    readonly parametric?: readonly ParametricFilter[] | undefined;
  }[];
}

/** A preset: which source plays where, and how loud. */
export interface AcousticPreset {
  readonly id: string;
  readonly sourceId: string;
  readonly equalizationId: string;
  readonly levelDb: number;
  readonly delayMs: number;
  readonly routing: readonly {
    readonly sourceChannelId: string;
    readonly channelId: string;
    readonly gainDb: number;
  }[];
}

/** inverted: multiplied by -1. */
export type AcousticPolarity = "normal" | "inverted";

/** An output: what it mixes, filters and feeds. */
export interface AcousticOutput {
  readonly id: string;
  /** `loudspeaker` names a loudspeaker and a way; any other kind feeds no loudspeaker of the auditorium. */
  readonly feeds: { readonly kind: string; readonly loudspeakerId?: string; readonly wayId?: string };
  readonly mix: readonly { readonly channelId: string; readonly gainDb: number }[];
  readonly highPass?: CrossoverHalf | undefined;
  readonly lowPass?: CrossoverHalf | undefined;
  /** Driver EQ. */
  readonly filters: readonly ParametricFilter[];
  readonly fir?: FirFilter | undefined;
  readonly gainDb: number;
  readonly delayMs: number;
  readonly polarity: AcousticPolarity;
  readonly mute: boolean;
}

/** A loudspeaker with the ways that outputs feed. */
export interface AcousticLoudspeaker {
  readonly id: string;
  readonly ways: readonly { readonly id: string }[];
}
