import { remove, set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const unknownField = shapeRule({
  code: "shape/unknown-field",
  fault: "unknown-field",
  title: "Every field is one that the schema knows.",
  why: "A field that nobody reads sets nothing: a mistyped name looks like a setting and is none.",
  remedy: "Correct the name, or take the field out.",
  example: {
    breaks: [set("/screen/seatz", 180)],
    mends: [remove("/screen/seatz")],
  },
});
