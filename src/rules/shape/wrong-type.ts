import { set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const wrongType = shapeRule({
  code: "shape/wrong-type",
  fault: "wrong-type",
  title: "Numbers are numbers, texts are texts.",
  why: "A number in quotes is not compared as a number.",
  remedy: "Write the value as its field wants it.",
  example: {
    breaks: [set("/channels/C/levelDb", "-2.5")],
    mends: [set("/channels/C/levelDb", -2.5)],
  },
});
