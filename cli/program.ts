import { Command, CommanderError } from "commander";
import { BoothkeepError, EXIT_CODE } from "../src/public/boothkeep.ts";
import { addCommands } from "./commands/index.ts";
import type { Context } from "./context.ts";
import { defectOf } from "./defect.ts";
import { errorJson, errorText } from "./error-text.ts";
import { harmlessContext } from "./harmless-context.ts";
import { usageError } from "./usage-error.ts";
import { ownVersion } from "./version.ts";

const EXIT_CODES_HELP = `
Exit codes: 0 done and nothing found, 1 the check found something,
2 wrong use or unreadable input, 3 damaged or unverified data,
4 decisions are missing, 70 a defect in boothkeep itself, 74 the output was
closed or is full.

Wrong settings destroy drivers and hurt people: amplifiers off or muted and
the fader down before any configuration is loaded.`;

/** Runs the command line. Says the exit code through the context; throws only on a defect of boothkeep itself. */
export async function run(args: readonly string[], outer: Context): Promise<void> {
  const context = harmlessContext(outer);
  const program = new Command("boothkeep")
    .description("Keeps, compares, checks and moves the configuration of cinema sound processors.")
    .version(ownVersion(), "--version", "print the version")
    .helpOption("--help", "explain a command")
    .helpCommand(false)
    .showSuggestionAfterError()
    .addHelpText("after", EXIT_CODES_HELP)
    .configureHelp({ subcommandTerm: (command) => command.name() })
    .exitOverride()
    .configureOutput({
      writeOut: context.out,
      writeErr: context.err,
      getOutHelpWidth: () => context.columns,
      getErrHelpWidth: () => context.columns,
      outputError: () => {
        // Told below, with all other errors.
      },
    });
  addCommands(program, context, args[0]);
  for (const command of program.commands) command.copyInheritedSettings(program).helpCommand(false);
  try {
    await program.parseAsync([...args], { from: "user" });
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.code === "commander.helpDisplayed" || error.code === "commander.version") return;
      if (error.code === "commander.help") return context.exit(EXIT_CODE.usage);
      return tell(usageError(error, program, args), args, context);
    }
    if (error instanceof BoothkeepError) return tell(error, args, context);
    tell(defectOf(error), args, context);
    if (context.env.BOOTHKEEP_TRACE && error instanceof Error) context.err(error.stack ?? "");
  }
}

/** Says an error as the command line asks for: in words, or as JSON; both on standard error. */
export function tell(error: BoothkeepError, args: readonly string[], context: Context): void {
  context.err(args.includes("--json") ? errorJson(error) : errorText(error, context.columns));
  context.exit(error.exitCode);
}
