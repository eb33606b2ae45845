import { Option } from "commander";
import type { SigningKey } from "../src/public/logbook.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";

/** Options that tell which screen. */
export const SITE_OPTION = ["--site <id>", "site"] as const;
export const SCREEN_OPTION = ["--screen <id>", "screen of the site"] as const;

/** Option of commands that may sign. */
export const KEY_OPTION = ["--key <file>", "sign with this Ed25519 key (PEM; see 'Signing' below)"] as const;

export const KEY_HELP = `
Signing: a key is made with 'openssl genpkey -algorithm ed25519 -out key.pem',
its public half with 'openssl pkey -in key.pem -pubout -out key-public.pem'.
The passphrase of a protected key is read from BOOTHKEEP_KEY_PASSPHRASE.`;

/** The hidden option that fixes the clock's label of what is recorded, for repeatable runs. */
export function atOption(): Option {
  return new Option("--at <time>", "date and time to record, RFC 3339 with offset (default: now)");
}

/** The key that `--key` names. */
export function signingKey(file: string | undefined, context: Context): { readonly key?: SigningKey } {
  if (file === undefined) return {};
  const privateKeyPem = new TextDecoder().decode(readInput(file, context.cwd));
  const passphrase = context.env.BOOTHKEEP_KEY_PASSPHRASE;
  return { key: { privateKeyPem, ...(passphrase === undefined ? {} : { passphrase }) } };
}

/** Now as this machine's clock shows it: RFC 3339 with offset, to the second. */
export function localDateTime(date: Date): string {
  const offsetMinutes = -date.getTimezoneOffset();
  const two = (value: number) => String(Math.trunc(Math.abs(value))).padStart(2, "0");
  const local = new Date(date.getTime() + offsetMinutes * 60_000).toISOString().slice(0, 19);
  return `${local}${offsetMinutes < 0 ? "-" : "+"}${two(offsetMinutes / 60)}:${two(offsetMinutes % 60)}`;
}
