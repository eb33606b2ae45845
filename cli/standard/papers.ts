import { join } from "node:path";
import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import { openQuestions, type Proposal, type ProposalRound } from "../../src/public/fleet.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { writeOnce } from "../files.ts";
import type { ProposeStandardOptions } from "./propose.ts";

export interface Round extends ProposalRound {
  /** Folder of this round: equal inputs go on in the same one. */
  readonly folder: string;
}

/** The work list of every site, an overview, and a decisions file while something is open. */
export async function writePapers(
  proposals: readonly Proposal[],
  round: Round,
  context: Context,
): Promise<readonly string[]> {
  const { proposalsReport, workList } = await import("../../src/public/report.ts");
  const { renderHtml, renderText } = await import("../../src/public/boothkeep.ts");
  const written: string[] = [];
  const sites = [...new Set(proposals.map(({ screen }) => screen.siteId))].sort();
  for (const site of sites) {
    const own = proposals.filter(({ screen }) => screen.siteId === site);
    const files = new Map(
      own.map(({ screen }) => [
        `${site}/${screen.screenId}`,
        `${site}/${screen.screenId}.configuration.json`,
      ]),
    );
    const list = workList(own, { files });
    const base = join(round.folder, `${site}.work-list`);
    writeOnce(`${base}.html`, renderHtml(list), context.cwd);
    writeOnce(`${base}.txt`, renderText(list), context.cwd);
    written.push(`${base}.html`);
  }
  const overview = join(round.folder, "overview.html");
  const report = proposalsReport(proposals, round.standard.standard, { detail: "screens" });
  writeOnce(overview, renderHtml(report), context.cwd);
  written.push(overview);
  if (proposals.some(({ outcome }) => outcome === "open")) {
    const questions = openQuestions(proposals, round.standard.standard, round.decisions);
    const file = join(round.folder, "decisions.json");
    writeOnce(file, pretty(questions), context.cwd);
    written.push(file);
  }
  return written;
}

/** More work lists than these are counted, not named. */
const MOST_LISTED = 8;

/** Tells what came of a round, and ends with what is missing. */
export async function sayProposals(
  proposals: readonly Proposal[],
  { folder, written, standard }: Round & { readonly written: readonly string[] },
  options: ProposeStandardOptions,
  context: Context,
): Promise<void> {
  const has = (outcome: Proposal["outcome"]) => proposals.some((proposal) => proposal.outcome === outcome);
  if (options.json === true) context.out(jsonText({ folder, written, proposals }));
  else {
    const { proposalsReport } = await import("../../src/public/report.ts");
    const { renderText } = await import("../../src/public/boothkeep.ts");
    const report = proposalsReport(proposals, standard.standard);
    context.out(renderText(report, { columns: context.columns, color: context.color }));
    const lists = written.filter((file) => file.endsWith(".work-list.html"));
    const isMany = lists.length > MOST_LISTED;
    if (isMany) context.out(`Written: ${lists.length} work lists in ${folder}`);
    for (const file of written) if (!isMany || !lists.includes(file)) context.out(`Written: ${file}`);
    if (has("open")) context.out("Next: fill in decisions.json and give it with --decisions.");
  }
  if (has("open")) context.exit(EXIT_CODE.decision);
}

export function pretty(value: unknown): string {
  return `${jsonText(value, 2)}\n`;
}
