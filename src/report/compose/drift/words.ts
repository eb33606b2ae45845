import type { DriftedScreen, DriftFinding } from "../../../fleet/drift/index.ts";
import { firstOf, printOffset, printValue } from "../../../words/index.ts";

/** What a deviation is, in words. */
export const HOW: Readonly<Record<DriftFinding["code"], string>> = {
  "standard/other-value": "other than the standard",
  "standard/outside-limits": "outside the limits",
  "standard/missing-item": "missing",
  "standard/extra-item": "not in the standard",
};

/** What the standard says, what screens have, and how far off that is. */
export function valueNotes({ code, standard, field, screens, off, unit }: DriftFinding): readonly string[] {
  if (code === "standard/missing-item" || code === "standard/extra-item") return [];
  const print = (value: unknown) => printValue(field, value ?? undefined);
  const wanted = Array.isArray(standard)
    ? `${print(standard[0])} to ${print(standard[1])}`
    : standard === null
      ? "nothing there"
      : print(standard);
  const distance =
    off === undefined
      ? ""
      : off.least === off.greatest
        ? ` Off by ${printOffset(off.least)}${unit === "" ? "" : ` ${unit}`}.`
        : ` Off by ${printOffset(off.least)} to ${printOffset(off.greatest)}${unit === "" ? "" : ` ${unit}`}${screens.length > 2 ? `, half of them by at most ${printOffset(off.median)}` : ""}.`;
  return [`Standard: ${wanted}. Screens: ${tally(screens, print)}.${distance}`];
}

/** "−1.0 dB (200), 0.0 dB (100)". */
function tally(screens: readonly DriftedScreen[], print: (value: unknown) => string): string {
  const counts = new Map<string, number>();
  for (const { actual } of screens) {
    const text = actual === null ? "nothing there" : print(actual);
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  if (counts.size === 1) return [...counts.keys()][0]!;
  const sorted = [...counts].sort((a, b) => b[1] - a[1]).map(([text, number]) => `${text} (${number})`);
  return firstOf(sorted, 4);
}
