import { CHANNELS } from "../../model/index.ts";
import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { crossingsOf, isHeadset, presetsOf } from "../program.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const routeGain = screenRule({
  code: "level/route-gain",
  kind: "sound",
  severity: "warning",
  title: "A channel that plays from its own place is routed at 0 dB.",
  why: "Levels belong to the channel and to the preset: a gain in the routing changes the balance of one preset, where nobody looks.",
  source: COMMON_PRACTICE,
  remedy: "Set the crossing to 0 dB, and the level at the channel.",
  limits: {
    maxDb: { value: 0.5, unit: "dB", words: "largest gain of a straight crossing" },
  },
  example: {
    breaks: [set("/presets/feature-71ds/routing/server-03-to-C/gainDb", 2)],
    mends: [set("/presets/feature-71ds/routing/server-03-to-C/gainDb", 0)],
  },
  *check(context, { maxDb }) {
    for (const { item: preset, index } of presetsOf(context)) {
      for (const { route, index: at, carried, to } of crossingsOf(context, preset)) {
        if (carried !== to || isHeadset(to) || Math.abs(route.gainDb) <= maxDb) continue;
        yield {
          path: ["presets", index, "routing", at, "gainDb"],
          words: `${CHANNELS[to].name} is routed at ${printDb(route.gainDb)}.`,
          numbers: { gainDb: route.gainDb, channel: to },
        };
      }
    }
  },
});
