import { BoothkeepError } from "../../src/public/boothkeep.ts";
import type { LoudspeakerData } from "../../src/public/exchange.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { errorText } from "../error-text.ts";
import { askQuestion } from "./ask-question.ts";
import type { TypedLines } from "./typed-lines.ts";

const KIND = "boothkeep.loudspeaker-data";

/**
 * The loudspeaker data that the command line names, or that a person names; undefined where they ended it.
 * @throws BoothkeepError whatever reading the file of the command line throws
 */
export async function askForData(
  named: string | undefined,
  lines: TypedLines,
  context: Context,
): Promise<LoudspeakerData | undefined> {
  if (named !== undefined) return readDocumentFile(named, KIND, context);
  for (;;) {
    const reply = await askQuestion(
      {
        id: "loudspeakers",
        part: "Loudspeaker data",
        kind: "text",
        words: "File with the data of the loudspeakers",
        help: "What their data sheets say: safe high-passes, recommended crossovers, sensitivities (schemas/loudspeaker-data.schema.json). Crossovers are never guessed.",
        maxLength: 1000,
      },
      lines,
      context,
    );
    if (reply.kind !== "answer") return undefined;
    try {
      return await readDocumentFile(String(reply.answer), KIND, context);
    } catch (error) {
      if (!(error instanceof BoothkeepError)) throw error;
      context.err(errorText(error, context.columns));
    }
  }
}
