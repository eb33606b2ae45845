import type { Step } from "../step.ts";
import { place } from "../words.ts";

/** Remarks are kept as they are. */
export const notes: Step = {
  name: "notes",
  run: ({ next }) =>
    next.notes === undefined
      ? { next }
      : {
          next,
          items: [
            {
              outcome: "kept",
              place: place("notes", "Remarks"),
              words: "The remarks are kept.",
              claims: ["notes"],
            },
          ],
        },
};
