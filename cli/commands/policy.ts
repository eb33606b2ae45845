import type { Command } from "commander";
import { BoothkeepError } from "../../src/public/boothkeep.ts";
import type { LogbookPolicy, TrustedKey } from "../../src/public/logbook.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import { readInput } from "../files.ts";
import { atOption, localDateTime } from "../logbook-options.ts";
import { openLogbookFolder } from "../restorable-entry.ts";
import { wrap } from "../wrap.ts";

interface PolicyOptions {
  readonly trust?: readonly string[];
  readonly needSignature?: boolean;
  readonly retire?: readonly string[];
  readonly stolen?: readonly string[];
  readonly by?: string;
  readonly at?: string;
  readonly json?: boolean;
}

const HELP = `
Without options: shows the policy in force. With '--by' a new one is set; what
is not given is then not in it, but for keys that '--retire' or '--stolen' name.
What a retired key signed before its time stays trusted; what a stolen one
signed does not, since its date may be made up: sign it again with another key.
Earlier policies stay on record. Whoever may
write to the folder may change the policy: keep the fingerprints elsewhere too.

Exit codes: 0 done, 2 wrong use or not written.

  boothkeep policy logbook --by "Head office" --need-signature \\
    --trust "Service team north=north-public.pem"`;

export function addPolicy(program: Command, context: Context): void {
  program
    .command("policy")
    .summary("show or set whose signatures a logbook asks for")
    .description("Shows or sets which keys a logbook trusts and whether restoring needs a signature.")
    .argument("<logbook>", "folder of the logbook")
    .option("--by <who>", "set a policy: person, team or role that does")
    .option("--trust <name=file...>", "trust this public key (PEM) under this name")
    .option("--retire <name=time...>", "key of this name: nothing recorded from that time on is trusted")
    .option("--stolen <name...>", "key of this name: nothing that it signed is trusted, whatever its date")
    .option("--need-signature", "restoring needs the signature of a trusted key")
    .addOption(atOption())
    .option("--json", "print one JSON document")
    .addHelpText("after", HELP)
    .action((logbook: string, options: PolicyOptions) => policy(logbook, options, context));
}

async function policy(folder: string, options: PolicyOptions, context: Context): Promise<void> {
  const { readPolicy, setPolicy, keyFingerprint } = await import("../../src/public/logbook.ts");
  const logbook = await openLogbookFolder(folder, context);
  const changes = [options.trust, options.needSignature, options.retire, options.stolen].some(
    (option) => option !== undefined,
  );
  if (options.by === undefined && changes) {
    throw new BoothkeepError("usage.wrong", "A policy is set by somebody.", { next: "Add --by WHO." });
  }
  if (options.by !== undefined) {
    setPolicy(logbook, {
      restoreNeedsSignature: options.needSignature === true,
      trustedKeys: retired(
        [...(await trustedKeys(options.trust ?? [], context))],
        readPolicy(logbook).trustedKeys,
        { ...options, now: options.at ?? localDateTime(context.now()) },
      ),
      recordedAt: options.at ?? localDateTime(context.now()),
      recordedBy: options.by,
    });
  }
  const inForce = readPolicy(logbook);
  const fingerprintOf = (publicKey: string) => keyFingerprint(Buffer.from(publicKey, "base64"));
  context.out(options.json === true ? jsonText(inForce) : words(inForce, fingerprintOf, context));
}

function words(
  { restoreNeedsSignature, trustedKeys, findings }: LogbookPolicy,
  fingerprintOf: (publicKey: string) => string,
  { columns }: Context,
): string {
  return [
    wrap(
      restoreNeedsSignature
        ? "Restoring needs the signature of a trusted key."
        : "Restoring needs no signature; a broken one is refused.",
      columns,
    ),
    trustedKeys.length === 0 ? "No key is trusted." : "Trusted keys, with the SHA-256 of the public key:",
    ...trustedKeys.flatMap(({ name, publicKey, retired: end }) => [
      `  ${name}${end === undefined ? "" : end.stolen === true ? " (stolen: trusted for nothing)" : ` (retired from ${end.from} on)`}`,
      `    ${fingerprintOf(publicKey)}`,
    ]),
    ...findings.map((finding) => wrap(finding.words, columns)),
  ].join("\n");
}

interface Retirements {
  readonly retire?: readonly string[];
  readonly stolen?: readonly string[];
  readonly now: string;
}

/** The keys of a new policy: those that are given, and those of the policy in force that are retired with it or were before. */
function retired(
  given: readonly TrustedKey[],
  inForce: readonly TrustedKey[],
  { retire = [], stolen = [], now }: Retirements,
): readonly TrustedKey[] {
  const before = inForce.filter((key) => !given.some(({ publicKey }) => publicKey === key.publicKey));
  const all = [...given, ...before];
  const ends = new Map<string, NonNullable<TrustedKey["retired"]>>();
  for (const pair of retire) {
    const [name = "", from = ""] = pair.split(/=(.*)/s);
    if (!Number.isFinite(Date.parse(from))) {
      throw new BoothkeepError("usage.wrong", `'${pair}' is no name with a time.`, {
        next: 'Write the name, an equals sign and the time: --retire "Service team=2026-09-01T00:00:00+02:00"',
      });
    }
    ends.set(name, { from });
  }
  for (const name of stolen) ends.set(name, { from: ends.get(name)?.from ?? now, stolen: true });
  for (const name of ends.keys()) {
    if (all.some((key) => key.name === name)) continue;
    throw new BoothkeepError("usage.wrong", `No key is called '${name}'.`, {
      next: `Keys of the policy in force: ${inForce.map((key) => key.name).join(", ") || "none"}.`,
    });
  }
  return all.flatMap((key) => {
    const end = ends.get(key.name);
    if (end !== undefined) return [{ ...key, retired: end }];
    return given.includes(key) || key.retired !== undefined ? [key] : [];
  });
}

async function trustedKeys(pairs: readonly string[], context: Context) {
  const { publicKeyBytes } = await import("../../src/public/logbook.ts");
  return pairs.map((pair) => {
    const [name, file] = pair.split(/=(.*)/s);
    if (name === undefined || name === "" || file === undefined || file === "") {
      throw new BoothkeepError("usage.wrong", `'${pair}' is no name with a file.`, {
        next: 'Write the name, an equals sign and the file: --trust "Service team=public.pem"',
      });
    }
    const pem = new TextDecoder().decode(readInput(file, context.cwd));
    return { name, publicKey: Buffer.from(publicKeyBytes(pem)).toString("base64") };
  });
}
