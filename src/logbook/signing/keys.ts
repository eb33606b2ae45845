import { createHash, createPrivateKey, createPublicKey, type KeyObject } from "node:crypto";
import { BoothkeepError } from "../../base/errors/index.ts";

/** An Ed25519 key pair (RFC 8032) in PEM: PKCS #8 (RFC 8410 section 7) and SubjectPublicKeyInfo (section 4). */
export interface KeyPair {
  readonly privateKeyPem: string;
  readonly publicKeyPem: string;
}

/** Bytes of an Ed25519 private key seed and of a public key (RFC 8032 section 5.1.5). */
const KEY_BYTES = 32;

/** DER of a PKCS #8 Ed25519 private key up to its 32 bytes (RFC 8410 section 10.3). */
const PRIVATE_KEY_HEAD = Buffer.from("302e020100300506032b657004220420", "hex");
/** DER of a SubjectPublicKeyInfo of an Ed25519 key up to its 32 bytes (RFC 8410 section 10.1). */
const PUBLIC_KEY_HEAD = Buffer.from("302a300506032b6570032100", "hex");

/**
 * The key pair that belongs to a seed. Take the seed from a source of chance fit for keys (`crypto.randomBytes`),
 * use it once and forget it.
 *
 * @param seed 32 bytes
 * @throws BoothkeepError signing.bad-key
 */
export function keyPairFromSeed(seed: Uint8Array): KeyPair {
  if (seed.length !== KEY_BYTES) throw badKey(`A seed has 32 bytes, this one has ${seed.length}.`);
  const privateKey = createPrivateKey({
    key: Buffer.concat([PRIVATE_KEY_HEAD, seed]),
    format: "der",
    type: "pkcs8",
  });
  return {
    privateKeyPem: privateKey.export({ format: "pem", type: "pkcs8" }) as string,
    publicKeyPem: createPublicKey(privateKey).export({ format: "pem", type: "spki" }) as string,
  };
}

/**
 * The 32 bytes of the public key that a PEM text holds or, for a private key, leads to.
 * @throws BoothkeepError signing.bad-key
 */
export function publicKeyBytes(pem: string): Uint8Array {
  return rawPublicKey(readKey(() => createPublicKey(pem)));
}

/**
 * A key's name for people and policies: SHA-256 over the 32 bytes of the public key, 64 hexadecimal digits.
 * @throws BoothkeepError signing.bad-key
 */
export function keyFingerprint(publicKey: Uint8Array): string {
  if (publicKey.length !== KEY_BYTES) throw badKey("A public key has 32 bytes.");
  return createHash("sha256").update(publicKey).digest("hex");
}

/** @internal */
export function privateKeyObject(pem: string, passphrase?: string): KeyObject {
  return readKey(() =>
    createPrivateKey({ key: pem, format: "pem", ...(passphrase === undefined ? {} : { passphrase }) }),
  );
}

/** @internal */
export function publicKeyObject(publicKey: Uint8Array): KeyObject {
  return createPublicKey({ key: Buffer.concat([PUBLIC_KEY_HEAD, publicKey]), format: "der", type: "spki" });
}

/** @internal */
export function rawPublicKey(key: KeyObject): Uint8Array {
  const der = key.export({ format: "der", type: "spki" });
  return new Uint8Array(der.subarray(der.length - KEY_BYTES));
}

function readKey(read: () => KeyObject): KeyObject {
  let key: KeyObject;
  try {
    key = read();
  } catch (error) {
    throw badKey("The text is no key in PEM that can be read, or its passphrase is wrong.", error);
  }
  if (key.asymmetricKeyType !== "ed25519") {
    throw badKey(`The key is of the kind '${key.asymmetricKeyType}'; signatures here are Ed25519.`);
  }
  return key;
}

function badKey(message: string, cause?: unknown): BoothkeepError {
  return new BoothkeepError("signing.bad-key", message, {
    next: "Give an Ed25519 key in PEM, as 'openssl genpkey -algorithm ed25519' writes it.",
    ...(cause === undefined ? {} : { cause }),
  });
}
