import { createPublicKey, sign, verify } from "node:crypto";
import { canonicalBytes } from "../../base/canonical/index.ts";
import { keyFingerprint, privateKeyObject, publicKeyObject, rawPublicKey } from "./keys.ts";

/** An Ed25519 signature (RFC 8032, pure, no context) over the RFC 8785 bytes of a JSON document. */
export interface DocumentSignature {
  readonly algorithm: "Ed25519";
  /** The signer's public key, 32 bytes in Base64 (RFC 4648 section 4). */
  readonly publicKey: string;
  /** 64 bytes in Base64. */
  readonly value: string;
}

/** A key that an organization trusts, with the name that reports give it. */
export interface TrustedKey {
  readonly name: string;
  readonly publicKey: string;
  /** Absent: the key is in use. */
  readonly retired?: {
    /** RFC 3339 with offset: what was recorded from then on is not trusted. */
    readonly from: string;
    /** Somebody else had the key: whatever it signed is not trusted, since its date may be made up. */
    readonly stolen?: boolean;
  };
}

/** What one signature is worth. */
export type SignatureVerdict =
  | { readonly kind: "trusted"; readonly name: string; readonly fingerprint: string }
  | {
      readonly kind: "retired-key";
      readonly name: string;
      readonly fingerprint: string;
      readonly from: string;
      readonly stolen: boolean;
    }
  | { readonly kind: "unknown-key"; readonly fingerprint: string }
  | { readonly kind: "broken"; readonly fingerprint: string };

/**
 * Signs a JSON document.
 *
 * @param privateKeyPem PKCS #8 in PEM
 * @throws BoothkeepError signing.bad-key
 */
export function signDocument(
  document: unknown,
  privateKeyPem: string,
  options: { readonly passphrase?: string } = {},
): DocumentSignature {
  const key = privateKeyObject(privateKeyPem, options.passphrase);
  return {
    algorithm: "Ed25519",
    publicKey: base64(rawPublicKey(createPublicKey(key))),
    value: base64(sign(null, canonicalBytes(document), key)),
  };
}

/**
 * Whose signature this is and whether it holds for the document. A signature by a key that nobody listed proves
 * only that the document was not changed since; it does not say who signed.
 *
 * @param signedAt when the document says that it was written (RFC 3339): whether a retired key was still in use. Absent: a
 *   retired key is not trusted
 */
export function judgeSignature(
  document: unknown,
  signature: DocumentSignature,
  trustedKeys: readonly TrustedKey[],
  signedAt?: string,
): SignatureVerdict {
  const publicKey = Buffer.from(signature.publicKey, "base64");
  const value = Buffer.from(signature.value, "base64");
  if (
    signature.algorithm !== "Ed25519" ||
    publicKey.length !== 32 ||
    base64(publicKey) !== signature.publicKey ||
    base64(value) !== signature.value
  ) {
    return { kind: "broken", fingerprint: "" };
  }
  const fingerprint = keyFingerprint(publicKey);
  if (!holds(document, publicKey, value)) return { kind: "broken", fingerprint };
  const trusted = trustedKeys.find((key) => key.publicKey === signature.publicKey);
  if (trusted === undefined) return { kind: "unknown-key", fingerprint };
  const { name, retired } = trusted;
  if (retired === undefined || isBefore(signedAt, retired)) return { kind: "trusted", name, fingerprint };
  return { kind: "retired-key", name, fingerprint, from: retired.from, stolen: retired.stolen === true };
}

function isBefore(
  signedAt: string | undefined,
  { from, stolen }: NonNullable<TrustedKey["retired"]>,
): boolean {
  return stolen !== true && signedAt !== undefined && Date.parse(signedAt) < Date.parse(from);
}

function holds(document: unknown, publicKey: Uint8Array, value: Uint8Array): boolean {
  try {
    return verify(null, canonicalBytes(document), publicKeyObject(publicKey), value);
  } catch {
    return false;
  }
}

function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString("base64");
}
