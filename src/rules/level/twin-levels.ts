import { CHANNELS } from "../../model/index.ts";
import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { TWIN_CHANNELS } from "../twins.ts";

export const twinLevels = screenRule({
  code: "level/twin-levels",
  kind: "sound",
  severity: "warning",
  title: "Left and right channels have nearly the same level trim.",
  why: "The image pulls to the louder side, in every preset.",
  source: COMMON_PRACTICE,
  remedy: "Measure both channels at the reference position, and set the trims from that.",
  limits: {
    maxDb: { value: 3, unit: "dB", words: "largest difference of level" },
  },
  example: {
    breaks: [set("/channels/Rss/levelDb", -6)],
    mends: [set("/channels/Rss/levelDb", -2)],
  },
  *check({ configuration }, { maxDb }) {
    const indexOf = (wanted: string) => configuration.channels.findIndex(({ label }) => label === wanted);
    for (const [leftLabel, rightLabel] of TWIN_CHANNELS) {
      const [left, right] = [indexOf(leftLabel), indexOf(rightLabel)];
      if (left < 0 || right < 0) continue;
      const [leftDb, rightDb] = [
        configuration.channels[left]!.levelDb,
        configuration.channels[right]!.levelDb,
      ];
      if (Math.abs(rightDb - leftDb) <= maxDb) continue;
      yield {
        path: ["channels", right, "levelDb"],
        words: `The level is ${printDb(rightDb)}, ${printDb(leftDb)} at ${CHANNELS[leftLabel].name}.`,
        numbers: { levelDb: rightDb, twinDb: leftDb },
      };
    }
  },
});
