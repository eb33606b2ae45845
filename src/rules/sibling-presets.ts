import type { Preset } from "../model/index.ts";
import type { RuleContext } from "./context.ts";

/** A preset and the first one of the same format and source. */
export interface SiblingPresets {
  readonly first: Preset;
  readonly other: Preset;
  /** Position of the other preset. */
  readonly index: number;
}

/** Presets that would be expected to be alike and that give no reason why they are not. */
export function siblingPresets({ configuration }: RuleContext): readonly SiblingPresets[] {
  const { presets } = configuration;
  return presets.flatMap((other, index) => {
    const first = presets.find(
      ({ format, sourceId }) => format === other.format && sourceId === other.sourceId,
    )!;
    return first === other || (other.reason ?? "") !== "" || (first.reason ?? "") !== ""
      ? []
      : [{ first, other, index }];
  });
}
