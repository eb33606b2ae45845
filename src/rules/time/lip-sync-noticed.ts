import { isInLipSync } from "../../acoustics/index.ts";
import { printMs } from "../../words/index.ts";
import { set } from "../edits.ts";
import { soundLateMs } from "../lip-sync.ts";
import { presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const lipSyncNoticed = screenRule({
  code: "time/lip-sync-noticed",
  kind: "sound",
  severity: "advice",
  title: "Sound and picture are in step closely enough that nobody notices.",
  why: "Viewers notice sound more than 45 ms ahead of the picture, or 125 ms behind.",
  source: "ITU-R BT.1359-1 (1998), detectability; a broadcasting recommendation",
  remedy: "Set the program delay to the delay of the picture, and check with a clap.",
  example: {
    breaks: [set("/screen/videoLatencyMs", 95)],
    mends: [set("/screen/videoLatencyMs", 50)],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      const lateMs = soundLateMs(context, preset);
      if (lateMs === undefined || isInLipSync(lateMs, "detectability")) continue;
      if (!isInLipSync(lateMs, "acceptability")) continue;
      yield {
        path: ["presets", index, "delayMs"],
        words: `Sound is ${printMs(Math.abs(lateMs), 0)} ${lateMs < 0 ? "ahead of" : "behind"} the picture.`,
        numbers: { lateMs },
      };
    }
  },
});
