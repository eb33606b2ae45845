import type { Change } from "../changes/index.ts";
import type { Draft } from "./draft.ts";
import type { Scene } from "./scene.ts";

/** What an explainer has to say of the changes that are still open. */
export interface Explanation {
  readonly drafts: readonly Draft[];
  /** Changes whose computed effect is below the tolerance. */
  readonly quiet?: readonly Change[];
}

/**
 * Takes what it understands of the open changes; one subject an explainer. Every change that it takes is a cause of
 * exactly one of its drafts, or quiet.
 */
export type Explainer = (scene: Scene, open: readonly Change[]) => Explanation;
