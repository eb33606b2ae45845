import { describe, expect, it } from "vitest";
import {
  createLogbook,
  memoryStore,
  openLogbook,
  readEntry,
  readPolicy,
  record,
  requireRestorable,
  setPolicy,
  signEntry,
  verifyLogbook,
  withdraw,
} from "../../../src/logbook/entries/index.ts";
import { keepRecordFile, recordLine } from "../../../src/logbook/medium/index.ts";
import { keyPairFromSeed, publicKeyBytes } from "../../../src/logbook/signing/index.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "./support/documents.ts";

const north = keyPairFromSeed(new Uint8Array(32).fill(1));
const stranger = keyPairFromSeed(new Uint8Array(32).fill(2));
const trusted = {
  name: "north team",
  publicKey: Buffer.from(publicKeyBytes(north.publicKeyPem)).toString("base64"),
};
const SET = { recordedAt: "2026-03-02T09:00:00Z", recordedBy: "head office" };
const DEMANDING = { restoreNeedsSignature: true, trustedKeys: [trusted], ...SET };

function fresh() {
  const files = new Map<string, Uint8Array>();
  return { files, logbook: createLogbook(memoryStore(files), NEW_LOGBOOK) };
}

const codes = (logbook: ReturnType<typeof fresh>["logbook"]) =>
  verifyLogbook(logbook, { depth: "contents" }).findings.map((finding) => finding.code);

describe("signatures and policy", () => {
  it("let nothing unsigned be restored when the policy asks for a signature", () => {
    const { logbook } = fresh();
    const { id } = record(logbook, { configuration: configuration(), ...circumstances() });
    const item = () => readEntry(logbook, { id });
    expect(() => requireRestorable(item())).not.toThrow();
    setPolicy(logbook, DEMANDING);
    const unsigned = expect.objectContaining({ code: "logbook.unsigned", exitCode: 3 });
    expect(() => requireRestorable(item())).toThrow(unsigned);
    expect(codes(logbook)).toEqual(["logbook/unsigned"]);
    signEntry(logbook, { id }, stranger);
    expect(() => requireRestorable(item())).toThrow(unsigned);
    expect(codes(logbook)).toEqual(["logbook/unknown-signer", "logbook/unsigned"]);
    signEntry(logbook, { id }, north);
    expect(() => requireRestorable(item())).not.toThrow();
    expect(codes(logbook)).toEqual(["logbook/unknown-signer"]);
  });

  it("sign at recording and withdrawing", () => {
    const { logbook } = fresh();
    setPolicy(logbook, DEMANDING);
    const { id } = record(logbook, { configuration: configuration(), ...circumstances(), key: north });
    withdraw(
      logbook,
      { id },
      { reason: "Wrong.", recordedAt: SET.recordedAt, recordedBy: "north", key: north },
    );
    expect(readEntry(logbook, { id })).toMatchObject({
      signatures: [{ record: id }],
      withdrawals: [{ entry: id }],
    });
    expect(codes(logbook)).toEqual([]);
  });

  it("say that a signature is broken which belongs to another entry", () => {
    const { logbook } = fresh();
    const { id } = record(logbook, { configuration: configuration(), ...circumstances(), key: north });
    const [signature] = readEntry(logbook, { id }).signatures;
    const other = record(logbook, { configuration: configuration(), ...circumstances(1) });
    const forged = { ...signature!, record: other.id };
    keepRecordFile(logbook.store, forged, [recordLine(forged)]);
    expect(() => requireRestorable(readEntry(logbook, { id: other.id }))).toThrow(
      expect.objectContaining({ code: "logbook.broken-signature" }),
    );
  });

  it("keep earlier policies; the last one holds", () => {
    const { logbook } = fresh();
    setPolicy(logbook, DEMANDING);
    expect(setPolicy(logbook, { ...DEMANDING, restoreNeedsSignature: false }).number).toBe(2);
    expect(readPolicy(openLogbook(logbook.store))).toMatchObject({
      restoreNeedsSignature: false,
      trustedKeys: [trusted],
    });
    expect(logbook.store.list("policy")).toHaveLength(2);
  });

  it("take the stricter of two policies that were set apart", () => {
    const [one, two] = [fresh(), fresh()];
    setPolicy(one.logbook, { ...DEMANDING, restoreNeedsSignature: false });
    setPolicy(two.logbook, {
      ...DEMANDING,
      trustedKeys: [{ name: "x", publicKey: Buffer.alloc(32).toString("base64") }],
    });
    for (const [path, bytes] of two.files) if (path.includes("policy/")) one.files.set(path, bytes);
    expect(readPolicy(openLogbook(memoryStore(one.files)))).toMatchObject({
      restoreNeedsSignature: true,
      trustedKeys: [],
    });
  });

  it("ask for a signature when a policy is damaged", () => {
    const { logbook, files } = fresh();
    setPolicy(logbook, { ...DEMANDING, restoreNeedsSignature: false });
    const path = [...files.keys()].find((name) => name.startsWith("policy/"))!;
    files.get(path)![30]! ^= 1;
    const policy = readPolicy(logbook);
    expect(policy.restoreNeedsSignature).toBe(true);
    expect(policy.findings.map((finding) => finding.code)).toEqual(["logbook/damaged-file"]);
  });

  it("refuse a policy that nobody could meet, and keys that are none", () => {
    const { logbook } = fresh();
    expect(() => setPolicy(logbook, { ...DEMANDING, trustedKeys: [] })).toThrow(
      expect.objectContaining({ code: "usage.wrong" }),
    );
    expect(() =>
      setPolicy(logbook, { ...DEMANDING, trustedKeys: [{ name: "x", publicKey: "AAAA" }] }),
    ).toThrow(expect.objectContaining({ code: "signing.bad-key" }));
  });
});
