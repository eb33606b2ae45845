import type { Command } from "commander";
import { BoothkeepError, EXIT_CODE } from "../../src/public/boothkeep.ts";
import type { PaperJudgement } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { openLogbookOrPack } from "../logbook-or-pack.ts";
import { sayNotes } from "../say-notes.ts";

interface MatchPaperOptions {
  readonly json?: boolean;
}

const HELP = `
Our sheets carry a code. Scan it with any reader (a telephone's camera, a
scanner that types) and give the words that it holds: 'boothkeep paper 1: …'.
Without words they are read from standard input. The answer says whether the
entry holds just the settings that the paper shows, and whether others were
recorded since.

Exit codes: 0 paper and entry agree and nothing else was recorded since,
1 anything else, 2 wrong use or unreadable, 3 the entry is damaged, or records
of its screen are missing: a newer one may be among them.

  boothkeep match-paper logbook "boothkeep paper 1: lantern-mill/screen-1 …"
  boothkeep match-paper handover.zip "boothkeep paper 1: …"`;

export function addMatchPaper(program: Command, context: Context): void {
  program
    .command("match-paper")
    .summary("find the entry that a printed sheet shows")
    .description("Finds the entry that a printed sheet shows, and says whether paper and entry agree.")
    .argument("<logbook>", "folder of the logbook, or a handover pack")
    .argument("[words...]", "what the code on the sheet holds")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, words: readonly string[], options: MatchPaperOptions) =>
      match(logbook, words, options, context),
    );
}

async function match(
  source: string,
  words: readonly string[],
  options: MatchPaperOptions,
  context: Context,
): Promise<void> {
  const { judgePaper, readImprint } = await import("../../src/public/logbook.ts");
  const { history, readEntry } = await import("../../src/public/boothkeep.ts");
  const imprint = readImprint(words.length > 0 ? words.join(" ") : await scanned(context));
  const logbook = await openLogbookOrPack(source, context);
  const { items, notes, findings } = history(logbook, { siteId: imprint.siteId, screenId: imprint.screenId });
  sayNotes({ notes, findings }, context);
  const judgement = judgePaper(imprint, items);
  const { item } = judgement;
  // The hash stands in the entry's record; whether its settings are whole, only putting them together can tell.
  if (item !== undefined) {
    readEntry(logbook, { id: item.id, siteId: item.entry.siteId, screenId: item.entry.screenId });
  }
  if (options.json === true) {
    context.out(jsonText(judgement));
  } else {
    const { paperMatchReport } = await import("../../src/public/report.ts");
    const { renderText } = await import("../../src/public/boothkeep.ts");
    const { columns, color } = context;
    context.out(renderText(paperMatchReport(judgement), { columns, color }));
  }
  if (!isInForce(judgement)) context.exit(EXIT_CODE.found);
}

function isInForce({ verdict, item, laterChanged }: PaperJudgement): boolean {
  const isSound = item?.withdrawals.length === 0 && item.standing.refusal === undefined;
  return (
    verdict === "agrees" && isSound && item.standing.readBack.kind !== "differs" && laterChanged.length === 0
  );
}

/** The first line of standard input. */
async function scanned({ input, err, live }: Context): Promise<string> {
  if (live) err("Scan the code on the sheet, then press Enter.");
  const { createInterface } = await import("node:readline");
  for await (const line of createInterface({ input })) {
    if (line.trim() !== "") return line;
  }
  throw new BoothkeepError("usage.wrong", "No words were given.", {
    next: 'Give what the code on the sheet holds: "boothkeep paper 1: …".',
  });
}
