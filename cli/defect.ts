import { BoothkeepError } from "../src/public/boothkeep.ts";

/** An error that nobody foresaw, in one line: what Node prints of it would be the bundled source. */
export function defectOf(error: unknown): BoothkeepError {
  const message = error instanceof Error ? error.message : String(error);
  const [line = ""] = message.trim().split(/[\r\n\u2028\u2029]/);
  return new BoothkeepError("defect.unforeseen", `A defect in boothkeep itself: ${line.slice(0, LONGEST)}`, {
    next: "Run again with BOOTHKEEP_TRACE=1 set and report what it prints, without the configuration if that is confidential.",
    cause: error,
  });
}

/** Characters of a message that are repeated: some hold the text that they are about. */
const LONGEST = 300;
