import { execFileSync } from "node:child_process";
import { createPrivateKey, createPublicKey, generateKeyPairSync, sign, verify } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalBytes } from "../../../src/base/canonical/index.ts";
import {
  judgeSignature,
  keyFingerprint,
  keyPairFromSeed,
  publicKeyBytes,
  signDocument,
} from "../../../src/logbook/signing/index.ts";
import { outside } from "../../outside.ts";

// RFC 8032 section 7.1, TEST 1, TEST 2, TEST 3 (Ed25519): secret key, public key, message, signature.
const RFC_8032 = [
  {
    secret: "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
    public: "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
    message: "",
    signature:
      "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
  },
  {
    secret: "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
    public: "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
    message: "72",
    signature:
      "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
  },
  {
    secret: "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
    public: "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
    message: "af82",
    signature:
      "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
  },
] as const;

const hex = (text: string) => Buffer.from(text, "hex");
const KEYS = keyPairFromSeed(hex(RFC_8032[0].secret));
const OTHER = keyPairFromSeed(hex(RFC_8032[1].secret));
const trusted = {
  name: "north team",
  publicKey: Buffer.from(publicKeyBytes(KEYS.publicKeyPem)).toString("base64"),
};

describe("keys", () => {
  it.each(RFC_8032)("agree with RFC 8032 section 7.1 ($message)", (vector) => {
    const pair = keyPairFromSeed(hex(vector.secret));
    expect(Buffer.from(publicKeyBytes(pair.publicKeyPem)).toString("hex")).toBe(vector.public);
    const signature = sign(null, hex(vector.message), createPrivateKey(pair.privateKeyPem));
    expect(signature.toString("hex")).toBe(vector.signature);
    expect(verify(null, hex(vector.message), createPublicKey(pair.publicKeyPem), hex(vector.signature))).toBe(
      true,
    );
  });

  it("refuses what is no Ed25519 key", () => {
    const rsa = generateKeyPairSync("rsa", { modulusLength: 1024 }).publicKey.export({
      format: "pem",
      type: "spki",
    });
    for (const bad of ["", "-----BEGIN PUBLIC KEY-----\nAAAA\n-----END PUBLIC KEY-----\n", String(rsa)]) {
      expect(() => publicKeyBytes(bad)).toThrow(expect.objectContaining({ code: "signing.bad-key" }));
      expect(() => signDocument({}, bad)).toThrow(expect.objectContaining({ code: "signing.bad-key" }));
    }
    expect(() => keyPairFromSeed(new Uint8Array(31))).toThrow(
      expect.objectContaining({ code: "signing.bad-key" }),
    );
    expect(() => keyFingerprint(new Uint8Array(33))).toThrow(
      expect.objectContaining({ code: "signing.bad-key" }),
    );
  });

  it("signs with a key that a passphrase protects", () => {
    const locked = createPrivateKey(KEYS.privateKeyPem).export({
      format: "pem",
      type: "pkcs8",
      cipher: "aes-256-cbc",
      passphrase: "booth",
    }) as string;
    expect(signDocument({ a: 1 }, locked, { passphrase: "booth" })).toEqual(
      signDocument({ a: 1 }, KEYS.privateKeyPem),
    );
    expect(() => signDocument({ a: 1 }, locked, { passphrase: "wrong" })).toThrow(
      expect.objectContaining({ code: "signing.bad-key" }),
    );
  });
});

describe("signDocument and judgeSignature", () => {
  it("says whose signature holds", () => {
    const document = { kind: "x", gainDb: -3.5 };
    const signature = signDocument(document, KEYS.privateKeyPem);
    expect(judgeSignature({ gainDb: -3.5, kind: "x" }, signature, [trusted])).toEqual({
      kind: "trusted",
      name: "north team",
      fingerprint: keyFingerprint(publicKeyBytes(KEYS.publicKeyPem)),
    });
    expect(judgeSignature(document, signature, []).kind).toBe("unknown-key");
    expect(judgeSignature({ ...document, gainDb: -3 }, signature, [trusted]).kind).toBe("broken");
    const byOther = { ...signDocument(document, OTHER.privateKeyPem), publicKey: trusted.publicKey };
    expect(judgeSignature(document, byOther, [trusted]).kind).toBe("broken");
  });

  it("calls a signature broken after any change of a character", () => {
    const document = { a: [1, 2, 3] };
    const signature = signDocument(document, KEYS.privateKeyPem);
    fc.assert(
      fc.property(
        fc.constantFrom("value", "publicKey"),
        fc.nat(87),
        fc.constantFrom(..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/="),
        (field: "value" | "publicKey", at, char) => {
          const text = signature[field];
          if (at >= text.length || text[at] === char) return;
          const changed = { ...signature, [field]: text.slice(0, at) + char + text.slice(at + 1) };
          expect(judgeSignature(document, changed, [trusted]).kind).toBe("broken");
        },
      ),
      { numRuns: 300 },
    );
  });

  it.runIf(outside("openssl"))("agrees with openssl about key files and signatures", () => {
    const folder = mkdtempSync(join(tmpdir(), "signing-"));
    try {
      const at = (name: string) => join(folder, name);
      const document = { b: [1, null], a: "é" };
      writeFileSync(at("message"), canonicalBytes(document));
      writeFileSync(at("public.pem"), KEYS.publicKeyPem);
      writeFileSync(at("signature"), Buffer.from(signDocument(document, KEYS.privateKeyPem).value, "base64"));
      const said = execFileSync(
        "openssl",
        [
          "pkeyutl",
          "-verify",
          "-pubin",
          "-inkey",
          at("public.pem"),
          "-rawin",
          "-in",
          at("message"),
          "-sigfile",
          at("signature"),
        ],
        { encoding: "utf8" },
      );
      expect(said).toContain("Signature Verified Successfully");
      execFileSync("openssl", ["genpkey", "-algorithm", "ed25519", "-out", at("theirs.pem")]);
      const theirs = execFileSync("cat", [at("theirs.pem")], { encoding: "utf8" });
      expect(judgeSignature(document, signDocument(document, theirs), []).kind).toBe("unknown-key");
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
