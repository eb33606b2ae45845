import type { ChannelLabel } from "../../model/index.ts";
import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { crossingsOf, FOLDS, labelsPresent, presetsOf, targetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const foldLevel = screenRule({
  code: "format/fold-level",
  kind: "sound",
  severity: "warning",
  title: "A channel that plays from two others goes to both, at −3 dB each.",
  why: "Ls of a 5.1 program in a 7.1DS room plays from the side and the rear array: at full level in both it is 3 dB too loud, from one alone it comes from the wrong place.",
  source: "common practice, no source; −3.01 dB is the equal-power split of two incoherent arrays",
  remedy: "Route it to both channels at −3 dB.",
  limits: {
    toleranceDb: { value: 0.75, unit: "dB", words: "how far the split may be from −3.01 dB" },
  },
  example: {
    breaks: [set("/presets/feature-51/routing/server-05-to-Lrs/gainDb", 0)],
    mends: [set("/presets/feature-51/routing/server-05-to-Lrs/gainDb", -3)],
  },
  *check(context, { toleranceDb }) {
    const present = labelsPresent(context);
    for (const { item: preset, index } of presetsOf(context)) {
      const crossings = crossingsOf(context, preset);
      for (const label of Object.keys(FOLDS) as ChannelLabel[]) {
        const targets = targetsOf(label, present);
        const own = crossings.filter(({ carried, to }) => carried === label && targets.includes(to));
        if (own.length === 0 || targets.length < 2) continue;
        const missing = targets.filter((target) => !own.some(({ to }) => to === target));
        if (missing.length > 0) {
          yield {
            path: ["presets", index, "routing"],
            words: `${label} of the program plays from ${own[0]!.to} alone; ${missing.join(" and ")} should share it.`,
            numbers: { channel: label, missing: missing.join(" ") },
          };
        }
        for (const { route, index: at, to } of missing.length > 0 ? [] : own) {
          if (Math.abs(route.gainDb + 3.01) <= toleranceDb) continue;
          yield {
            path: ["presets", index, "routing", at, "gainDb"],
            words: `${label} reaches ${to} at ${printDb(route.gainDb)} in place of −3 dB.`,
            numbers: { channel: label, gainDb: route.gainDb },
          };
        }
      }
    }
  },
});
