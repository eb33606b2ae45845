import { DATA_SIGNALS } from "../../model/index.ts";
import { set } from "../edits.ts";
import { crossingsOf, presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

const NAMES: Readonly<Record<string, string>> = {
  "motion-data": "motion data",
  "sync-signal": "the sync signal",
  "sign-language-video": "sign-language video",
};

export const dataAudible = screenRule({
  code: "format/data-audible",
  kind: "protection",
  severity: "error",
  title: "Data carried as sound is routed nowhere that can be heard.",
  why: "Motion data, sync signals and sign-language video are noise up to full scale: they hurt ears, and headset users first.",
  source:
    "ISDCF Document 4, 2017-06-29 (positions 13, 14, 15); ISDCF Document 13, 2018-07-18; that it must not be audible: common practice, no source",
  remedy: "Take the crossing out.",
  example: {
    breaks: [set("/presets/feature-71ds/routing/server-08-to-VIN/sourceChannelId", "server-13")],
    mends: [set("/presets/feature-71ds/routing/server-08-to-VIN/sourceChannelId", "server-08")],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      for (const { carried, to, index: at, from } of crossingsOf(context, preset)) {
        if (carried === undefined || !DATA_SIGNALS.includes(carried)) continue;
        yield {
          path: ["presets", index, "routing", at],
          words: `Position ${from.channel.position} carries ${NAMES[carried]} and is routed to ${to}.`,
          numbers: { position: from.channel.position, carried, channel: to },
        };
      }
    }
  },
});
