import type { Output, Placement } from "../../../model/index.ts";

/** A way to need fewer outputs. Ways of one loudspeaker stay together: no way is ever dropped alone. */
export type Reduction =
  | { readonly kind: "join"; readonly into: Output; readonly from: Output }
  | { readonly kind: "leave-out"; readonly outputs: readonly Output[] };

/** Reductions that only make sense together: both sides of the room, or one thing. */
export interface ReductionBundle {
  readonly id: string;
  readonly words: string;
  readonly consequence: string;
  /** How many outputs it sets free. */
  readonly frees: number;
  /** The smaller, the less is missed: an order of preference, not a physical quantity. Common practice, no source. */
  readonly loss: number;
  readonly reductions: readonly Reduction[];
  /** True: a loudspeaker would be guarded less than by its own output. */
  readonly weakensProtection: boolean;
}

/** The place on the other side of the room. */
export const MIRROR: Readonly<Partial<Record<Placement, Placement>>> = {
  "surround-left": "surround-right",
  "surround-left-side": "surround-right-side",
  "surround-left-rear": "surround-right-rear",
  "screen-left-center": "screen-right-center",
  "screen-left": "screen-right",
};

/** Orders of preference. Common practice, no source. */
export const LOSS = {
  joinEqual: 1,
  joinSides: 10,
  boothMonitor: 20,
  narration: 60,
  hearingImpaired: 70,
  surround: 100,
  subwoofer: 150,
  screen: 1000,
} as const;
