import type { SettingDifference, SettingProof } from "../model/index.ts";
import type { DecidedSetting, SettingPlace } from "./decided-setting.ts";

/** A setting before and after. */
export interface Comparison {
  readonly place: SettingPlace;
  readonly verdict: SettingProof["verdict"] | "equal";
  readonly differences: readonly SettingDifference[];
  /** Of a switch: its position after. */
  readonly isOn?: boolean;
}

/**
 * The verdict on a setting on which somebody decided. It counts as decided only with the value that was decided; what
 * protects less than before needs a decision that accepts it in words, and whatever else is there is judged as if nothing
 * had been decided, at least as severely as against what was.
 */
export function judgeDecided(
  comparison: Comparison,
  { setting, decided, accepts }: DecidedSetting,
  { asDecided, isMuted }: { readonly asDecided: Comparison; readonly isMuted: boolean },
): Comparison {
  const { verdict } = comparison;
  const settled = decided === "muted" ? isMuted : isMet(asDecided.verdict);
  if (!settled) return decided === "muted" ? comparison : notAsDecided(comparison, asDecided);
  if (isMet(verdict)) return comparison;
  const weaker = verdict === "weaker" || verdict === "lost";
  if (weaker && accepts === undefined && decided !== "muted") return comparison;
  const isGone = decided === null || decided === "muted" || setting === "mute";
  return { ...comparison, verdict: isGone ? "left-out" : "changed-by-decision" };
}

function isMet(verdict: Comparison["verdict"]): boolean {
  return verdict === "equal" || verdict === "within-tolerance";
}

/** Most serious first. */
const SERIOUSNESS = ["lost", "weaker", "missing", "new", "changed"] as const;

function notAsDecided(comparison: Comparison, asDecided: Comparison): Comparison {
  const verdicts = [asDecided.verdict, comparison.verdict];
  const known = new Map(comparison.differences.map((difference) => [difference.name, difference]));
  for (const { name, before: decided, after } of asDecided.differences) {
    const before = known.has(name) ? known.get(name)!.before : after;
    known.set(name, { name, before, after, decided });
  }
  return {
    ...comparison,
    verdict: SERIOUSNESS.find((verdict) => verdicts.includes(verdict)) ?? asDecided.verdict,
    differences: [...known.values()],
  };
}
