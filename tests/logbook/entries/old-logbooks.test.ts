import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { canonicalHash } from "../../../src/base/canonical/index.ts";
import {
  bindLogbook,
  folderStore,
  history,
  openLogbook,
  readAttachment,
  readEntry,
  readPolicy,
  record,
  requireRestorable,
  verifyLogbook,
} from "../../../src/logbook/entries/index.ts";
import { readPack } from "../../../src/logbook/pack/index.ts";
import { circumstances } from "./support/documents.ts";

const old = join(import.meta.dirname, "../../../samples/old");
const root = mkdtempSync(join(tmpdir(), "old-"));
afterAll(() => rmSync(root, { recursive: true }));

/** Entries of samples/old/logbook-1.0, never to be changed: id and SHA-256 of the configuration. */
const KEPT: Readonly<Record<string, string>> = {
  a2d399e22d1f1b1f1f8d96f33252bfe5bbb80ad52abfcd7fc6a12048e99173c2:
    "6982bbb339b9b7a2c2a887c93d6d28f42cec3d4c1a25d49d92103be68d31808a",
  "51059fbdf0de6d544db480c586ff41943691b9a8f3cf20f64e09d23501f51add":
    "8695d06a15fe12d613e9f8cd8c70b2b6e1206d73982c1bd17940def273727031",
  ba2171dd807c81cb34112d529c7c0cb6ef999df14540404ed4e508c99202a889:
    "332ced178c91a5a4ae01b2b8dad30eceb57604f54d312d5f1953b0c8c72578fc",
  cba712cd42a5239e2edf64e252f236fb50931a5bb7153a594a036429bb02f88d:
    "3bbe6995973b92b9ad92529b25f6323ff00e5a4e3099abf381b2de75e01aff57",
  d2b281e64704e47c003a1629f6b5323a485b8d7d63b8a307c0d2602a2cdedd59:
    "3383e1735d845dbf24e553fd36aef59d8b831e3f6b6b0c5ad344bb04d9613494",
  "83134e226b8dfaf86618d4f2bfe01b9794f001ab80935d139c01bd99165944bd":
    "9d8eb320d36cc87f462a4fa44925d243b933281440bea501eff4a446298c220e",
  caede6f4f617e4ee08e4c6f4d31211040c6d1a05d353d3ac342cc8df9b7d7924:
    "577856498e8e25ac1bf95b30753df70e89b09692090616785a66f17f8ca80de5",
  "0c0af52152ff005f32eaeb5bddd6590a90e6e74b8d6b701468be35fd6e5bba37":
    "86f3d70970b1ab640d27ba9e18e835906cab8f922d2daac60601ac7016f322ad",
  a9b577a0f1a93939ce249a888e0be5062acb9f789b9943948b9aa72d1e2f056f:
    "e4bcf9ee8f4ae7b76c953762e01468d22e30cc23fe0931467bd191e4e4960171",
};

describe("a logbook of format 1.0", () => {
  const logbook = openLogbook(folderStore(join(old, "logbook-1.0")));

  it("gives every configuration that was recorded in it", () => {
    const { items, findings } = history(logbook);
    expect(findings.map(({ code }) => code)).toEqual(["logbook/withdrawal-not-counted"]);
    expect(Object.fromEntries(items.map((item) => [item.id, item.entry.configuration]))).toEqual(KEPT);
    for (const { id } of items)
      expect(canonicalHash(readEntry(logbook, { id }).configuration)).toBe(KEPT[id]);
    const [attached] = items.flatMap((item) => item.entry.attachments ?? []);
    expect(Buffer.from(readAttachment(logbook, attached!.sha256)).toString()).toBe(
      "Surround left lowered.\n",
    );
  });

  it("keeps its withdrawals, signatures and policy", () => {
    const policy = readPolicy(logbook);
    expect(policy).toMatchObject({ restoreNeedsSignature: true, trustedKeys: [{ name: "Service team" }] });
    const { items } = history(logbook, { siteId: "lantern-mill", screenId: "screen-4" });
    // It is not signed, and the policy asks for that.
    expect(items.map((item) => item.withdrawals.length)).toEqual([0, 0, 0]);
    expect(items.map((item) => item.standing.uncountedWithdrawals.length)).toEqual([0, 1, 0]);
    expect(items.map((item) => item.signatures.length)).toEqual([1, 0, 1]);
    expect(() => requireRestorable(items[2]!)).not.toThrow();
    const { findings } = verifyLogbook(logbook, { depth: "contents" });
    expect(new Set(findings.map((finding) => finding.code))).toEqual(
      new Set(["logbook/unsigned", "logbook/withdrawal-not-counted"]),
    );
  });

  it("can be gone on with", () => {
    const copy = join(root, "copy");
    cpSync(join(old, "logbook-1.0"), copy, { recursive: true });
    const again = openLogbook(folderStore(copy));
    const last = readEntry(again, { siteId: "Copper.Heron", screenId: "screen-1" });
    const { entry } = record(again, { configuration: last.configuration, ...circumstances() });
    expect(entry).toMatchObject({ number: 4, previous: [last.id], configuration: last.entry.configuration });
    bindLogbook(again);
    expect(verifyLogbook(again, { depth: "contents" }).entries.lost).toEqual([]);
  });
});

describe("a pack of format 1.0", () => {
  it("gives what was put into it", async () => {
    const pack = await readPack(readFileSync(join(old, "pack-1.0.zip")));
    expect(pack.manifest.configuration).toBe(canonicalHash(pack.configuration));
    expect(KEPT[canonicalHash(pack.entry)]).toBe(pack.manifest.configuration);
    expect(pack.previous.map(({ entry }) => entry.number)).toEqual([1]);
    expect(pack.signature.kind).toBe("unknown-key");
    expect(pack.sheets.text).toBe("Frozen sample.\n");
  });
});
