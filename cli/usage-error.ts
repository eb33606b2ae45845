import type { Command, CommanderError } from "commander";
import { BoothkeepError } from "../src/public/boothkeep.ts";

/** What the parser of the command line found wrong, as an error like every other: in words, with a next step. */
export function usageError(error: CommanderError, program: Command, args: readonly string[]): BoothkeepError {
  const [message = "", suggestion] = error.message.replace(/^error: /, "").split("\n");
  const meant = /^\(Did you mean (.+)\?\)$/.exec(suggestion ?? "")?.[1];
  const next = [meant === undefined ? "" : `Did you mean '${meant}'?`, helpFor(program, args)];
  return new BoothkeepError("usage.wrong", words(error.code, message), {
    next: next.filter((part) => part !== "").join(" "),
  });
}

function words(code: string, message: string): string {
  const named = /'[^']*'/.exec(message)?.[0];
  switch (code) {
    case "commander.missingMandatoryOptionValue":
      return `The option ${named} is needed.`;
    case "commander.missingArgument":
      return `The argument ${named} is needed.`;
    case "commander.optionMissingArgument":
      return `The option ${named} needs a value.`;
    case "commander.unknownOption":
      return `There is no option ${named} here.`;
    case "commander.unknownCommand":
      return `There is no command ${named}.`;
    case "commander.invalidArgument": {
      const [, flags, value, why = ""] =
        /^option '(.*?)' argument '(.*)' is invalid\.\s*(.*)$/.exec(message) ?? [];
      return flags === undefined ? sentence(message) : `'${value}' does not fit '${flags}'. ${why}`.trim();
    }
    default:
      return sentence(message);
  }
}

function sentence(message: string): string {
  return `${message.charAt(0).toUpperCase()}${message.slice(1).replace(/\.$/, "")}.`;
}

/** Where the command at hand is explained: the innermost one that the words name. */
function helpFor(program: Command, args: readonly string[]): string {
  const path: string[] = [];
  let at = program;
  for (const word of args) {
    const inner = at.commands.find((command) => command.name() === word);
    if (inner === undefined) break;
    path.push(word);
    at = inner;
  }
  return path.length === 0
    ? "'boothkeep --help' lists the commands."
    : `'boothkeep ${path.join(" ")} --help' explains the command.`;
}
