import type { Command } from "commander";
import { addConfirmOptions, type ConfirmOptions, confirmAndSay } from "../confirmed.ts";
import type { Context } from "../context.ts";
import { readConfigurationFile } from "../documents.ts";
import { KEY_HELP, SCREEN_OPTION, SITE_OPTION } from "../logbook-options.ts";
import { PROFILES_HELP } from "../profiles.ts";
import { requireScreen } from "../require-screen.ts";
import { openLogbookFolder, restorableEntry } from "../restorable-entry.ts";

interface ConfirmCommandOptions extends ConfirmOptions {
  readonly site: string;
  readonly screen: string;
  readonly intended?: string;
  readonly entry?: string;
}

const HELP = `
Compares what was read back from the unit with what was to be loaded: the
file that '--intended' names, else the entry that 'boothkeep restore' takes.
Differences within the unit's steps count as equal. What was read back is
recorded as 'after swap' either way; what was to be loaded and the comparison
are attached to it.

Exit codes: 0 the unit holds what was to be loaded, 1 it does not,
2 wrong use or unreadable input, 3 no entry can be trusted.

  boothkeep confirm logbook --site lantern-mill --screen screen-1 \\
    --intended to-load.json --by "Service team" read-back.json
${PROFILES_HELP}
${KEY_HELP}`;

export function addConfirm(program: Command, context: Context): void {
  const command = program
    .command("confirm")
    .summary("compare a unit with what was to be loaded, and record both")
    .description("Compares what a unit holds after loading with what was to be loaded, and records both.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<readback>", "configuration as read back from the unit")
    .requiredOption(...SITE_OPTION)
    .requiredOption(...SCREEN_OPTION)
    .option("--intended <file>", "what was to be loaded (default: the last as-left entry that verifies)")
    .option("--entry <id>", "entry that was to be loaded, by its id or its first digits");
  addConfirmOptions(command)
    .addHelpText("after", HELP)
    .action((logbook: string, readBack: string, options: ConfirmCommandOptions) =>
      confirm(logbook, readBack, options, context),
    );
}

async function confirm(
  folder: string,
  file: string,
  options: ConfirmCommandOptions,
  context: Context,
): Promise<void> {
  const { entryToBeLoaded } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const configuration = await readConfigurationFile(file, context);
  requireScreen(configuration, file, options);
  const toBeLoaded =
    options.intended === undefined
      ? entryToBeLoaded(await restorableEntry(logbook, options), configuration)
      : { configuration: await readConfigurationFile(options.intended, context) };
  await confirmAndSay({ configuration, logbook, folder }, toBeLoaded, options, context);
}
