import type { EqBand, FilterAbility, GraphicAbility, GraphicEq, PlanPlace } from "../../../model/index.ts";
import type { EqTask } from "./eq-task.ts";

/** An equalizer as a document holds it. */
export interface Equalizer {
  readonly graphic?: GraphicEq;
  readonly parametric: readonly EqBand[];
}

export interface EqualizerInput {
  readonly at: PlanPlace;
  readonly equalizer: Equalizer;
  /** Names under which the document holds the two parts, below the place. */
  readonly names: { readonly graphic?: string; readonly parametric: string };
  readonly graphicAbility: GraphicAbility | undefined;
  readonly filterAbility: FilterAbility | undefined;
  readonly effort: EqTask["effort"];
}

/** Whether a filter does anything. */
export function isActive(band: EqBand): boolean {
  if (band.enabled === false) return false;
  return !("gainDb" in band) || band.gainDb !== 0;
}
