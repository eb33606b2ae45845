import { BoothkeepError, EXIT_CODE } from "../src/public/boothkeep.ts";
import type { LogbookPolicy, Pack } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";
import { wrap } from "./wrap.ts";

/**
 * Reads a handover pack whose files are to be used. Its signature is judged by the policy of the logbook that it is used with,
 * where there is one.
 *
 * @throws BoothkeepError pack.*; pack.broken-signature where its signature does not match it
 */
export async function readPackFile(file: string, context: Context, policy?: LogbookPolicy): Promise<Pack> {
  const { readPack } = await import("../src/public/logbook.ts");
  const pack = await atFile(file, () =>
    readPack(readInput(file, context.cwd), policy === undefined ? {} : { trustedKeys: policy.trustedKeys }),
  );
  const { kind } = pack.signature;
  if (kind === "broken") {
    throw new BoothkeepError(
      "pack.broken-signature",
      `The signature of '${file}' does not match the pack: it was changed.`,
      {
        place: { file },
        next: "Do not use it. Take the settings from the logbook, or ask whoever made the pack for another one.",
      },
    );
  }
  if (policy?.restoreNeedsSignature === true && kind !== "trusted") {
    const words = `No trusted key signed the pack '${file}': its entries count only as far as they are signed themselves.`;
    context.err(wrap(`boothkeep: ${words}`, context.columns));
    context.exit(EXIT_CODE.found);
  }
  return pack;
}

async function atFile<T>(file: string, read: () => Promise<T>): Promise<T> {
  try {
    return await read();
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
