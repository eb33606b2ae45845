import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { requireOutside } from "../../outside.ts";

/** What the script in Python says of a logbook. */
export interface BookVerdict {
  readonly header: "whole" | "changed" | "damaged" | "missing";
  readonly policy?: { readonly unknown: boolean; readonly needs: boolean; readonly unseen: number };
  readonly screens?: Readonly<
    Record<
      string,
      {
        readonly missing: number;
        readonly damaged: number;
        readonly boundUnknown: boolean;
        readonly unsettled: boolean;
      }
    >
  >;
  readonly unlisted?: readonly string[];
  readonly untrue?: readonly string[];
  readonly restore?: {
    readonly kind: "takes" | "asks" | "stops" | "none";
    readonly id?: string;
    readonly configuration?: string;
    readonly passed: readonly (readonly [id: string, reason: string])[];
  };
  readonly answers: Readonly<Record<string, HonestAnswer>>;
}

export interface PackVerdict {
  readonly fault: string | null;
  readonly answers: Readonly<Record<string, HonestAnswer>>;
}

export interface HonestAnswer {
  /** Exit codes; "sound": as for a sound logbook; "act", "any": see the audit. */
  readonly exit: readonly (number | "sound" | "act" | "any")[];
  readonly why: string;
}

export interface BookCase {
  readonly kind: "logbook";
  readonly folder: string;
  readonly site: string;
  readonly screen: string;
  /** Entry and configuration that a printed sheet names. */
  readonly paper: string;
}

export interface PackCase {
  readonly kind: "pack";
  readonly file: string;
  readonly paper: string;
}

/** Asks the script in Python, which knows the format page and nothing of this program. */
export function testify(cases: readonly BookCase[]): readonly BookVerdict[];
export function testify(cases: readonly PackCase[]): readonly PackVerdict[];
export function testify(cases: readonly (BookCase | PackCase)[]): unknown {
  const script = join(import.meta.dirname, "witness.py");
  const said = execFileSync(requireOutside("python"), [script], {
    input: JSON.stringify(cases),
    encoding: "utf8",
    env: { ...process.env, OPENSSL: requireOutside("openssl") },
    maxBuffer: 256 * 1024 * 1024,
  });
  return JSON.parse(said);
}
