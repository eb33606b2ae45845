import { printDb } from "../../words/index.ts";
import { set } from "../edits.ts";
import { COMMON_PRACTICE, screenRule } from "../rule.ts";

export const pagingWithoutDuck = screenRule({
  code: "operation/paging-without-duck",
  kind: "protection",
  severity: "warning",
  title: "The program steps back while someone speaks to the room.",
  why: "An announcement under a film at full level is not understood.",
  source: COMMON_PRACTICE,
  remedy: "Lower the program by 12 dB or more while paging.",
  example: {
    breaks: [set("/operation/paging/programDuckDb", 3)],
    mends: [set("/operation/paging/programDuckDb", 20)],
  },
  *check({ configuration: { operation } }) {
    const duckDb = operation.paging?.programDuckDb;
    if (duckDb === undefined || duckDb >= 12) return;
    yield {
      path: ["operation", "paging", "programDuckDb"],
      words: `The program is lowered by ${printDb(duckDb, 0)} only while paging.`,
      numbers: { duckDb },
    };
  },
});
