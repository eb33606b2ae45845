import type { Command } from "commander";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { KEY_HELP, signingKey } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface SignOptions {
  readonly key: string;
  readonly json?: boolean;
}

const HELP = `
Adds a signature to an entry that is there already. Its RFC 8785 bytes are
signed with Ed25519 (RFC 8032).

Exit codes: 0 done, 2 wrong use, no such entry, or not written.

  boothkeep sign logbook 3b98d5e870d6 --key key.pem
${KEY_HELP}`;

export function addSign(program: Command, context: Context): void {
  program
    .command("sign")
    .summary("sign an entry")
    .description("Signs an entry of a logbook.")
    .argument("<logbook>", "folder of the logbook")
    .argument("<id>", "id of the entry, or its first digits")
    .requiredOption("--key <file>", "Ed25519 key in PEM")
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, id: string, options: SignOptions) => sign(logbook, id, options, context));
}

async function sign(folder: string, id: string, options: SignOptions, context: Context): Promise<void> {
  const { signEntry } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const { key } = signingKey(options.key, context);
  const signature = signEntry(logbook, { id }, key!);
  context.out(
    options.json === true
      ? jsonText(signature)
      : wrap(`Signed: entry ${signature.record.slice(0, 12)}.`, context.columns),
  );
}
