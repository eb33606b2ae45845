import type { DocumentPath } from "../../model/index.ts";
import { gridRange } from "../../profile/index.ts";
import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const trimAtEnd = screenRule({
  code: "level/trim-at-end",
  kind: "sound",
  severity: "advice",
  title: "No level trim stands at the end of its range.",
  why: "A trim at its end usually ran out before the level was reached: the amplifier's gain is wrong.",
  source: COMMON_PRACTICE,
  remedy: "Change the amplifier's gain or the output's sensitivity, then set the trim again.",
  needsProfile: true,
  example: {
    breaks: [set("/channels/C/levelDb", -40)],
    mends: [set("/channels/C/levelDb", -2)],
  },
  *check({ configuration, profile }) {
    const channels = gridRange(profile!.channels.levelDb);
    for (const [index, { levelDb }] of configuration.channels.entries()) {
      yield* atEnd(["channels", index, "levelDb"], levelDb, channels);
    }
    const outputs = gridRange(profile!.outputs.gainDb);
    for (const [index, { gainDb }] of configuration.outputs.entries()) {
      yield* atEnd(["outputs", index, "gainDb"], gainDb, outputs);
    }
  },
});

function* atEnd(
  path: DocumentPath,
  valueDb: number,
  { min, max }: { readonly min: number; readonly max: number },
) {
  if (valueDb !== min && valueDb !== max) return;
  yield {
    path,
    words: `The trim stands at ${printDb(valueDb)}, the ${valueDb === max ? "upper" : "lower"} end of its range.`,
    numbers: { valueDb, min, max },
  };
}
