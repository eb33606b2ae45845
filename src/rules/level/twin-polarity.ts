import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";
import { type TwinOutputs, twinOutputs } from "../twins.ts";

export const twinPolarity = screenRule({
  code: "level/twin-polarity",
  kind: "sound",
  severity: "error",
  title: "Twins have the same polarity.",
  why: "A loudspeaker turned over against its twin takes the bass out of the middle of the room.",
  source: COMMON_PRACTICE,
  remedy: "Set the same polarity for all ways on both sides, and check the cables with a polarity tester.",
  example: {
    breaks: [set("/outputs/sub-2-all/polarity", "inverted")],
    mends: [set("/outputs/sub-2-all/polarity", "normal")],
  },
  *check(context) {
    const twins = twinOutputs(context);
    const told = new Set<string>();
    for (const { left, right } of twins) {
      const key = `${left.loudspeaker.id} ${right.loudspeaker.id}`;
      const ways = twins.filter(
        (pair) => pair.left.loudspeaker === left.loudspeaker && pair.right.loudspeaker === right.loudspeaker,
      );
      // One way turned over is a matter of the crossover; here the whole loudspeaker is.
      if (told.has(key) || !ways.every(isTurned)) continue;
      told.add(key);
      yield {
        path: ["outputs", right.index, "polarity"],
        words: `${right.loudspeaker.label} is ${right.item.polarity}, ${left.loudspeaker.label} ${left.item.polarity}.`,
        numbers: { polarity: right.item.polarity, twinPolarity: left.item.polarity },
      };
    }
  },
});

function isTurned({ left, right }: TwinOutputs): boolean {
  return left.item.polarity !== right.item.polarity;
}
