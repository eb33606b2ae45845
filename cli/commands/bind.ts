import type { Command } from "commander";
import { EXIT_CODE } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { SITE_OPTION } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";
import { progressOf } from "./verify.ts";

interface BindCommandOptions {
  readonly site?: string;
  readonly json?: boolean;
}

const HELP = `
Gathers a site's entries into one file. Small files take a whole block each on
memory cards and sticks; one file takes few. The file is read back and every
configuration put together from it before the single files are removed.
Entries can be recorded and read meanwhile, and afterwards as before.

Exit codes: 0 done, 1 done, but damaged files were left as they are,
2 wrong use or not written.

  boothkeep bind logbook
  boothkeep bind logbook --site lantern-mill`;

export function addBind(program: Command, context: Context): void {
  program
    .command("bind")
    .summary("gather a site's entries into one file")
    .description("Gathers the entries of each site into one file.")
    .argument("<logbook>", "folder of the logbook")
    .option(...SITE_OPTION)
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, options: BindCommandOptions) => bindFolder(logbook, options, context));
}

async function bindFolder(
  folder: string,
  { site, json }: BindCommandOptions,
  context: Context,
): Promise<void> {
  const { bindLogbook } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const shown = progressOf("Bound", context);
  const { sites, findings } = bindLogbook(logbook, {
    ...(site === undefined ? {} : { siteId: site }),
    onProgress: shown.step,
  });
  shown.end();
  if (json === true) {
    context.out(jsonText({ sites, findings }));
  } else {
    if (sites.length === 0) context.out("Nothing to gather.");
    for (const { siteId, entries, screens, sizeBytes } of sites) {
      const words = `${siteId}: one file of ${sizeBytes} bytes; screens: ${screens}, entries: ${entries}.`;
      context.out(wrap(words, context.columns));
    }
    for (const finding of findings) context.err(wrap(finding.words, context.columns));
  }
  if (findings.some((finding) => finding.severity === "error")) context.exit(EXIT_CODE.found);
}
