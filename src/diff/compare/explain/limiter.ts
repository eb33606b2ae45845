import type { Limiter, ProtectionEffect } from "../../../model/index.ts";
import { printMs, printNumber } from "../../../words/index.ts";
import type { Explainer } from "../explainer.ts";
import { outputIn, subjectAt } from "../scene.ts";
import { byItem, within } from "../select.ts";

/** Limiters: compared as settings. */
export const explainLimiter: Explainer = (scene, open) => ({
  drafts: byItem(within(open, "outputs[].limiter"), 2).map((causes) => {
    const id = causes[0]!.path[1]!;
    const output = outputIn(scene, id);
    const [before, after] = [settingOf(output.before?.limiter), settingOf(output.after?.limiter)];
    const guard = guardOf(output.before?.limiter, output.after?.limiter);
    return {
      code: "limiter/changed",
      kind: "protection",
      severity: guard === "weaker" || guard === "lost" ? "error" : "warning",
      subject: subjectAt(scene, ["outputs", id]),
      alike: JSON.stringify([before, after]),
      words: WORDS[guard],
      before,
      after,
      effects: [{ kind: "protection", guard, guards: "driver" }],
      remedy:
        "Check the threshold against the loudspeaker's and amplifier's ratings before playing at level.",
      causes,
    };
  }),
});

const WORDS: Readonly<Record<ProtectionEffect["guard"], string>> = {
  lost: "The limiter no longer acts.",
  gained: "A limiter acts now.",
  weaker: "The limiter lets more through than before.",
  stronger: "The limiter holds back more than before.",
  other: "The limiter is timed otherwise.",
};

function guardOf(before: Limiter | undefined, after: Limiter | undefined): ProtectionEffect["guard"] {
  const [was, is] = [before?.enabled === true, after?.enabled === true];
  if (was && !is) return "lost";
  if (!was && is) return "gained";
  const change = (after?.thresholdDbfs ?? 0) - (before?.thresholdDbfs ?? 0);
  if (!is || change === 0) return "other";
  return change > 0 ? "weaker" : "stronger";
}

function settingOf(limiter: Limiter | undefined): string {
  if (limiter === undefined) return "none";
  const times = `attack ${printMs(limiter.attackMs)}, release ${printMs(limiter.releaseMs, 0)}`;
  const off = limiter.enabled ? "" : " (not in use)";
  return `${printNumber(limiter.thresholdDbfs, 1)} dBFS, ${times}${off}`;
}
