import { set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const unknownValue = shapeRule({
  code: "shape/unknown-value",
  fault: "unknown-value",
  title: "A choice is one of the choices.",
  why: "A value outside the list has no meaning that two programs share.",
  remedy: "Choose one of the values that the schema lists.",
  example: {
    breaks: [set("/outputs/left-hf/highPass/family", "linkwitz-reiley")],
    mends: [set("/outputs/left-hf/highPass/family", "linkwitz-riley")],
  },
});
