import type { Command } from "commander";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { atOption, KEY_HELP, KEY_OPTION, localDateTime, signingKey } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface WithdrawCommandOptions {
  readonly reason: string;
  readonly by: string;
  readonly key?: string;
  readonly at?: string;
  readonly json?: boolean;
}

const HELP = `
The entry stays in the logbook, marked with the reason; nothing takes the mark
back. To use its configuration again, record it again.

Exit codes: 0 done, 2 wrong use, no such entry, or not written.

  boothkeep withdraw logbook 3b98d5e870d6 --by "Service team" \\
    --reason "Surround level was measured with the wrong microphone."
${KEY_HELP}`;

export function addWithdraw(program: Command, context: Context): void {
  program
    .command("withdraw")
    .summary("mark an entry as not to be used any more")
    .description("Marks an entry as not to be used any more.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<id>", "id of the entry, or its first digits")
    .requiredOption("--reason <text>", "why it is not to be used")
    .requiredOption("--by <who>", "person, team or role")
    .option(...KEY_OPTION)
    .addOption(atOption())
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, id: string, options: WithdrawCommandOptions) =>
      withdrawEntry(logbook, id, options, context),
    );
}

async function withdrawEntry(
  folder: string,
  id: string,
  options: WithdrawCommandOptions,
  context: Context,
): Promise<void> {
  const { withdraw } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const done = withdraw(
    logbook,
    { id },
    {
      reason: options.reason,
      recordedAt: options.at ?? localDateTime(context.now()),
      recordedBy: options.by,
      ...signingKey(options.key, context),
    },
  );
  context.out(
    options.json === true
      ? jsonText(done)
      : wrap(
          `Withdrawn: entry ${done.withdrawal.entry.slice(0, 12)}. It stays in the logbook.`,
          context.columns,
        ),
  );
}
