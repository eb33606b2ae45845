import { isInLipSync } from "../../acoustics/index.ts";
import { printMs } from "../../words/index.ts";
import { set } from "../edits.ts";
import { soundLateMs } from "../lip-sync.ts";
import { presetsOf } from "../program.ts";
import { screenRule } from "../rule.ts";

export const lipSync = screenRule({
  code: "time/lip-sync",
  kind: "sound",
  severity: "warning",
  title: "Sound and picture are in step.",
  why: "Viewers object to sound more than 90 ms ahead of the picture, or 185 ms behind.",
  source: "ITU-R BT.1359-1 (1998), acceptability; a broadcasting recommendation",
  remedy: "Set the program delay to the delay of the picture, and check with a clap.",
  example: {
    breaks: [set("/screen/videoLatencyMs", 160)],
    mends: [set("/screen/videoLatencyMs", 40)],
  },
  *check(context) {
    for (const { item: preset, index } of presetsOf(context)) {
      const lateMs = soundLateMs(context, preset);
      if (lateMs === undefined || isInLipSync(lateMs, "acceptability")) continue;
      yield {
        path: ["presets", index, "delayMs"],
        words: `Sound is ${printMs(Math.abs(lateMs), 0)} ${lateMs < 0 ? "ahead of" : "behind"} the picture.`,
        numbers: { lateMs },
      };
    }
  },
});
