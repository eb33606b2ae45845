import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/** A SHA-256 digest as 64 lower-case hexadecimal digits. */
export type Sha256 = string;

/**
 * The canonical text of a JSON value: RFC 8785 (JSON Canonicalization Scheme). Equal values give equal text,
 * whatever the order of their members.
 *
 * @throws Error when the value is no JSON value (NaN, Infinity, a lone surrogate, a function).
 */
export function canonicalText(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError("not a JSON value");
  return text;
}

/** The canonical text in UTF-8 (RFC 8785 section 3.2.4). */
export function canonicalBytes(value: unknown): Uint8Array {
  return new TextEncoder().encode(canonicalText(value));
}

/** SHA-256 (FIPS 180-4) of bytes or of a text in UTF-8. */
export function sha256(content: Uint8Array | string): Sha256 {
  return createHash("sha256").update(content).digest("hex");
}

/** SHA-256 of the canonical text of a JSON value: the identity of a document. */
export function canonicalHash(value: unknown): Sha256 {
  return sha256(canonicalText(value));
}

/**
 * Whether a text is the canonical text of the value that it was parsed to. ECMAScript writes strings and numbers as RFC 8785
 * wants them (section 3.2.2), so that only the order of names is left to look at: far quicker than writing it anew.
 */
export function isCanonical(value: unknown, text: string): boolean {
  // Half of a surrogate pair, which has no canonical form, is written as an escape.
  if (!text.includes("\\ud") && JSON.stringify(value) === text && isSorted(value)) return true;
  try {
    return canonicalText(value) === text;
  } catch {
    return false;
  }
}

function isSorted(value: unknown): boolean {
  if (typeof value !== "object" || value === null) return true;
  if (Array.isArray(value)) return value.every(isSorted);
  let before: string | undefined;
  for (const name of Object.keys(value)) {
    if (before !== undefined && before >= name) return false;
    before = name;
    if (!isSorted((value as Readonly<Record<string, unknown>>)[name])) return false;
  }
  return true;
}
