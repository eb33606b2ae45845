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
}

/** What one signature is worth. */
export type SignatureVerdict =
  | { readonly kind: "trusted"; readonly name: string; readonly fingerprint: string }
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
 */
export function judgeSignature(
  document: unknown,
  signature: DocumentSignature,
  trustedKeys: readonly TrustedKey[],
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
  return trusted === undefined
    ? { kind: "unknown-key", fingerprint }
    : { kind: "trusted", name: trusted.name, fingerprint };
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
