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

export type Polarity = "normal" | "inverted";

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
  readonly polarity: Polarity;
  readonly mute: boolean;
}

export interface AcousticLoudspeaker {
  readonly id: string;
  readonly ways: readonly { readonly id: string }[];
}
