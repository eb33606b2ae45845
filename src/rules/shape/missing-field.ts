import { remove, set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const missingField = shapeRule({
  code: "shape/missing-field",
  fault: "missing-field",
  title: "Every field that a document needs is there.",
  why: "What is missing cannot be compared, moved or checked.",
  remedy: "Add the field; the schema says what it may hold.",
  example: {
    breaks: [remove("/outputs/left-hf/polarity")],
    mends: [set("/outputs/left-hf/polarity", "normal")],
  },
});
