import { set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const outsideLimits = shapeRule({
  code: "shape/outside-limits",
  fault: "outside-limits",
  title: "A number is one that any unit could hold.",
  why: "Values far outside what any unit does are slips of the keyboard.",
  remedy: "Correct the number; check its unit.",
  example: {
    breaks: [set("/channels/C/levelDb", -2500)],
    mends: [set("/channels/C/levelDb", -2.5)],
  },
});
