import type { LabelAbility } from "../model/index.ts";

/** What a unit's names may be: how long, and of which characters. */
export interface LabelLimits {
  /** In characters as a person counts them, not UTF-16 code units. */
  readonly minLength: number;
  readonly maxLength: number;
  /** Whether a single character can be shown. */
  readonly takes: (character: string) => boolean;
}

/**
 * The limits that a profile sets for names.
 *
 * @example
 * labelFits("HALL 4", labelLimits(profile.labels));
 */
export function labelLimits({ minLength = 0, maxLength, characters }: LabelAbility): LabelLimits {
  const ranges = characters.map((text) => {
    const points = [...text].map((point) => point.codePointAt(0)!);
    return [points[0]!, points.at(-1)!] as const;
  });
  const takes = (character: string): boolean => {
    const code = character.codePointAt(0);
    return code !== undefined && ranges.some(([first, last]) => first <= code && code <= last);
  };
  return { minLength, maxLength, takes };
}

/** Whether the unit can show a name, in one pass over its characters. */
export function labelFits(label: string, limits: LabelLimits): boolean {
  const points = [...label];
  return points.length >= limits.minLength && points.length <= limits.maxLength && points.every(limits.takes);
}
