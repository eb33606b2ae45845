import { set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const wrongCount = shapeRule({
  code: "shape/wrong-count",
  fault: "wrong-count",
  title: "Lists hold as many items as they can.",
  why: "A graphic equalizer with too few gains would be read with every band shifted.",
  remedy: "Bring the list to the length that the schema asks for.",
  example: {
    breaks: [set("/equalizations/eq-feature/channels/C/graphic/gainsDb", [0, 1, 0])],
    mends: [set("/equalizations/eq-feature/channels/C/graphic/gainsDb", Array(27).fill(0))],
  },
});
