import type { Command } from "commander";
import { addConfirmOptions } from "../confirmed.ts";
import type { Context } from "../context.ts";
import { KEY_HELP } from "../logbook-options.ts";
import { PROFILES_HELP, PROFILES_OPTION } from "../profiles.ts";
import type { ConfirmStandardOptions } from "../standard/confirm.ts";
import type { DeriveStandardOptions } from "../standard/derive.ts";
import type { ProposeStandardOptions } from "../standard/propose.ts";

const STANDARD_HELP = `
A round: write a standard or derive one, propose, decide, propose again with
the decisions, load by the work lists, read back, confirm. 'drift' says at any
time who is off the standard.

  boothkeep standard derive logbook --out house-71.json --format 7.1DS
  boothkeep standard propose house-71.json logbook --out roll-out
  boothkeep standard confirm logbook screen-1.proposal.json read-back.json \\
    --standard house-71.json --by "Service team"`;

const DERIVE_HELP = `
What nearly all screens have is held exactly, numbers that lie close together
within limits, and the rest is left to each screen, with the reason. Screens
that differ are named. Read the result, change it, issue it as version 1.0.0.

  boothkeep standard derive logbook --out house-71.json --format 7.1DS`;

const PROPOSE_HELP = `
Looks at three things: the version that a screen last followed (from its
logbook, or '--followed'), the new version, the screen. What only the standard
changed is taken; what only the screen changed stays; where both changed, or
nothing was ever settled, it asks. Numbers found by measuring never change.

What the standard brings is then fitted to each unit: numbers to its steps, EQ
sets by its filters (with the error in dB), fader marks by their level, sources
and triggers to its connectors. What the unit or the screen lacks (a slot, an
EQ set, a source, a trigger) is asked, with what could be done instead.

Into a folder of its own below --out come, for every screen, the proposal and
the configuration to load, a work list for every site, and 'decisions.json'
while something is open: put one of the choices in place of null. One answer
serves all screens; a star stands for any text ("fitting/presets/*/slot"), and
"screens": ["lantern-mill/*"] limits an answer to some. The same command goes
on where it was stopped. Nothing counts as done before 'standard confirm'.

Exit codes: 0 everything proposed, 2 wrong use or
unreadable input, 3 a damaged logbook, 4 decisions are missing.

  boothkeep standard propose house-71.json logbook --out roll-out
  boothkeep standard propose house-71.json logbook --out roll-out \\
    --decisions decisions.json
${PROFILES_HELP}`;

const CONFIRM_HELP = `
Screens that had nothing to load are confirmed in the same way: the next version
then starts from what they follow.

Where the unit holds what was proposed (numbers may be rounded to its steps),
what was read back is recorded as 'standard applied', with the standard and
the proposal attached. Otherwise nothing is recorded.

Exit codes: 0 confirmed and recorded, 1 the unit holds something else,
2 wrong use or unreadable input.

  boothkeep standard confirm logbook screen-1.proposal.json read-back.json \\
    --standard house-71.json --by "Service team"
${PROFILES_HELP}
${KEY_HELP}`;

export function addStandard(program: Command, context: Context): void {
  const standard = program
    .command("standard")
    .summary("derive a house standard, bring screens to it")
    .description("Derives a house standard, proposes what brings screens to it, confirms what was loaded.")
    .addHelpText("after", STANDARD_HELP)
    .helpCommand(false);

  standard
    .command("derive")
    .description("Proposes a standard from what nearly all of many screens share.")
    .argument("<file...>", "configurations, packs, folders, logbooks")
    .requiredOption("--out <file>", "write the standard here")
    .option("--id <id>", "key of the standard", "house")
    .option("--title <text>", "name of the standard", "House standard")
    .option("--by <who>", "team or role that issues it", "Sound team")
    .option("--format <formats...>", "only auditoriums of these formats")
    .option("--profile <ids...>", "only units of these profiles")
    .option("--site <patterns...>", "only these sites; a star stands for any text")
    .option("--share <percent>", "how many of the screens count as nearly all", "90")
    .option("--json", "print standard and outliers as one JSON document")
    .addHelpText("after", DERIVE_HELP)
    .action(async (files: readonly string[], options: DeriveStandardOptions) => {
      const { derive } = await import("../standard/derive.ts");
      await derive(files, options, context);
    });

  standard
    .command("propose")
    .description("Proposes configurations that bring screens to a standard, with a work list for every site.")
    .argument("<standard>", "the standard, new version")
    .argument("<file...>", "configurations, packs, folders, logbooks")
    .requiredOption("--out <folder>", "folder to write into")
    .option("--followed <file>", "version that screens without a record of one follow")
    .option("--decisions <file>", "answers to what was asked")
    .option(...PROFILES_OPTION)
    .option("--json", "print the proposals as one JSON document")
    .addHelpText("after", PROPOSE_HELP)
    .action(async (file: string, files: readonly string[], options: ProposeStandardOptions) => {
      const { propose } = await import("../standard/propose.ts");
      await propose(file, files, options, context);
    });

  const confirm = standard
    .command("confirm")
    .description("Compares a unit with what was proposed, and records the standard as applied.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<proposal>", "proposal, its configuration beside it")
    .argument("<read-back>", "configuration as read back from the unit")
    .requiredOption("--standard <file>", "the standard that was applied");
  addConfirmOptions(confirm)
    .addHelpText("after", CONFIRM_HELP)
    .action(async (logbook: string, proposal: string, readBack: string, options: ConfirmStandardOptions) => {
      const { confirmStandard } = await import("../standard/confirm.ts");
      await confirmStandard({ logbook, proposal, readBack }, options, context);
    });
}
