import { restore, set } from "../edits.ts";
import { shapeRule } from "../rule.ts";

export const duplicateId = shapeRule({
  code: "shape/duplicate-id",
  fault: "duplicate-id",
  title: "No two items of a list have the same id.",
  why: "Everything is compared and merged by id: of two items with one id, one would be lost.",
  remedy: "Give one of them another id, and correct what refers to it.",
  example: {
    breaks: [set("/presets/music/routing/music-r-to-R/id", "music-l-to-L")],
    mends: [restore("/presets/music/routing")],
  },
});
