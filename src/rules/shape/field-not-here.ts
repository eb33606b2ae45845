import { remove, set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const fieldNotHere = shapeRule({
  code: "shape/field-not-here",
  fault: "field-not-here",
  title: "A field stands only where it means something.",
  why: "A Bessel normalization on another family, or a shelf with both Q and slope, has two readings.",
  remedy: "Take the field out, or change the field that it contradicts.",
  example: {
    breaks: [set("/outputs/left-hf/highPass/normalization", "phase")],
    mends: [remove("/outputs/left-hf/highPass/normalization")],
  },
});
