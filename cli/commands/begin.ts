import { resolve } from "node:path";
import type { Command } from "commander";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { localDateTime } from "../logbook-options.ts";
import { wrap } from "../wrap.ts";

interface BeginOptions {
  readonly notes?: string;
  readonly json?: boolean;
}

const HELP = `
A logbook is a folder: on this computer, a stick, a memory card, a network
drive, or where a cloud drive synchronizes it. What is recorded in it is never
changed nor deleted. Its format is described in schemas/logbook-format.md.

Exit codes: 0 done, 2 there is a logbook already, or the folder cannot be
written.

  boothkeep begin logbook`;

export function addBegin(program: Command, context: Context): void {
  program
    .command("begin")
    .summary("start a logbook")
    .description("Starts a logbook in a folder.")
    .argument("<logbook>", "folder, which may be there already")
    .option("--notes <text>", "what the logbook is for")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((folder: string, options: BeginOptions) => begin(folder, options, context));
}

async function begin(folder: string, { notes, json }: BeginOptions, context: Context): Promise<void> {
  const { createLogbook, folderStore } = await import("../../src/public/boothkeep.ts");
  const { header } = createLogbook(folderStore(resolve(context.cwd, folder)), {
    id: crypto.randomUUID(),
    startedAt: localDateTime(context.now()),
    ...(notes === undefined ? {} : { notes }),
  });
  context.out(json === true ? jsonText(header) : wrap(`The logbook '${folder}' is begun.`, context.columns));
}
