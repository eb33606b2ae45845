import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalText } from "../../../src/base/canonical/index.ts";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import {
  createLogbook,
  type FileStore,
  judgeSignatures,
  memoryStore,
  readEntry,
  record,
} from "../../../src/logbook/entries/index.ts";
import { readPack, savePack, writePack } from "../../../src/logbook/pack/index.ts";
import { unzipBytes, zipBytes } from "../../../src/logbook/pack/zip.ts";
import { keyPairFromSeed, publicKeyBytes } from "../../../src/logbook/signing/index.ts";
import { outside, requireOutside } from "../../outside.ts";
import { CrashStore } from "../entries/support/crash-store.ts";
import { circumstances, configuration, NEW_LOGBOOK } from "../entries/support/documents.ts";
import { CHANGING, countOperations, faultyStore, watchedStore } from "../entries/support/faulty-store.ts";
import { randomFrom } from "../entries/support/random.ts";
import { packContent } from "./support.ts";

const keys = keyPairFromSeed(new Uint8Array(32).fill(7));
const trusted = {
  name: "north team",
  publicKey: Buffer.from(publicKeyBytes(keys.publicKeyPem)).toString("base64"),
};

describe("writePack and readPack", () => {
  it("gives back what went in", async () => {
    const logbook = createLogbook(memoryStore(), NEW_LOGBOOK);
    const first = record(logbook, { configuration: configuration(), ...circumstances(0) });
    const changed = configuration({ outputs: [] });
    const second = record(logbook, { configuration: changed, ...circumstances(1) });
    const given = packContent({
      configuration: changed,
      entry: second.entry,
      previous: [{ entry: first.entry, configuration: configuration() }],
      attachments: [{ name: "Unit export.xml", bytes: new Uint8Array([60, 0, 255]) }],
      key: keys,
    });
    const pack = await readPack(await writePack(given), { trustedKeys: [trusted] });
    expect(pack).toMatchObject({
      configuration: changed,
      profile: given.profile,
      entry: second.entry,
      previous: given.previous,
      sheets: given.sheets,
      cautions: given.cautions,
      attachments: given.attachments,
      signature: { kind: "trusted", name: "north team" },
    });
  });

  it("makes the same bytes of the same content, whatever the order of its members", async () => {
    const backwards = Object.fromEntries(Object.entries(configuration()).reverse());
    const bytes = await writePack(packContent({ key: keys }));
    expect(await writePack(packContent({ key: keys, configuration: backwards }))).toEqual(bytes);
    expect(await writePack(packContent({ key: keys, createdBy: "south" }))).not.toEqual(bytes);
  });

  it("tells a signature that is unknown, broken or missing", async () => {
    const bytes = await writePack(packContent({ key: keys }));
    expect((await readPack(bytes)).signature.kind).toBe("unknown-key");
    expect((await readPack(await writePack(packContent()))).signature.kind).toBe("unsigned");
    const files = await unzipBytes(bytes);
    const other = await unzipBytes(await writePack(packContent({ key: keys, createdBy: "south" })));
    const mixed = files.map((file) =>
      file.name === "signature.json" ? other.find(({ name }) => name === "signature.json")! : file,
    );
    expect((await readPack(await zipBytes(mixed))).signature.kind).toBe("broken");
    const garbled = files.map((file) =>
      file.name === "signature.json" ? { ...file, bytes: new TextEncoder().encode("{}") } : file,
    );
    expect((await readPack(await zipBytes(garbled))).signature.kind).toBe("broken");
  });

  it("keeps the signatures of the entry", async () => {
    const logbook = createLogbook(memoryStore(), NEW_LOGBOOK);
    const { id, entry } = record(logbook, { configuration: configuration(), ...circumstances(0), key: keys });
    const { signatures } = readEntry(logbook, { id });
    const pack = await readPack(await writePack(packContent({ entry, entrySignatures: signatures })));
    expect(pack.entrySignatures).toEqual(signatures);
    expect(judgeSignatures(pack.entry!, pack.entrySignatures, [trusted])).toMatchObject([
      { kind: "trusted" },
    ]);
  });

  it.each([
    ["an archive", "pack.nested-archive", new Uint8Array([0x50, 0x4b, 3, 4, 0])],
    ["a file that is too large", "pack.too-large", new Uint8Array(16 * 1024 * 1024 + 1)],
  ])("refuses to take in %s", async (_what, code, bytes) => {
    await expect(
      writePack(packContent({ attachments: [{ name: "export.zip", bytes }] })),
    ).rejects.toMatchObject({
      code,
      place: { id: "export.zip" },
    });
  });

  it("refuses a configuration that does not say whose it is", async () => {
    await expect(writePack(packContent({ configuration: {} }))).rejects.toMatchObject({
      code: "document.invalid",
    });
  });

  it("writes nothing that it would not read", async () => {
    const long = "x".repeat(3_000_000);
    const pack = await readPack(await writePack(packContent({ sheets: { text: long, html: "" } })));
    expect(pack.sheets.text).toBe(long);
  });
});

describe("a pack and other programs", () => {
  const folder = mkdtempSync(join(tmpdir(), "pack-"));
  const file = join(folder, "pack.zip");
  const said = (command: string, ...args: string[]) => execFileSync(command, args, { encoding: "utf8" });
  beforeAll(async () => writeFileSync(file, await writePack(packContent({ key: keys }))));
  afterAll(() => rmSync(folder, { recursive: true }));

  it.runIf(outside("unzip"))("agree: unzip -t, zipinfo", () => {
    expect(said("unzip", "-t", file)).toContain("No errors detected");
    const listed = said("zipinfo", "-1", file).trim().split("\n");
    expect(listed).toEqual([
      "manifest.json",
      "signature.json",
      "cautions.txt",
      "configuration.json",
      "sheet.html",
      "sheet.txt",
      "unit-profile.json",
    ]);
    expect(said("unzip", "-p", file, "configuration.json")).toBe(
      `${JSON.stringify(JSON.parse(canonicalText(configuration())), null, 2)}\n`,
    );
  });

  it.runIf(outside("python"))("agree: Python's zipfile, hashlib", () => {
    const script = `
import hashlib, json, sys, zipfile
z = zipfile.ZipFile(sys.argv[1])
assert z.testzip() is None
for f in json.loads(z.read("manifest.json"))["files"]:
    data = z.read(f["name"])
    assert len(data) == f["sizeBytes"] and hashlib.sha256(data).hexdigest() == f["sha256"], f["name"]
print(len(z.namelist()))`;
    expect(said(requireOutside("python"), "-c", script, file).trim()).toBe("7");
  });
});

describe("savePack", () => {
  const bytes = new Uint8Array([1, 2, 3]);

  it("leaves the whole pack or nothing, whatever fails", () => {
    const run = (store: FileStore) => savePack(store, "pack.zip", bytes);
    const operations = countOperations(memoryStore(), run);
    expect(operations).toBeGreaterThanOrEqual(4);
    for (let failAt = 1; failAt <= operations; failAt += 1) {
      for (const code of ["ENOSPC", "EIO", "EROFS"]) {
        const medium = memoryStore();
        expect(() => run(faultyStore(medium, { failAt, code }))).toThrow(BoothkeepError);
        const left = medium.list("").map((item) => item.name);
        expect(left.filter((name) => name !== "pack.zip")).toEqual([]);
        if (left.length > 0) expect(medium.read("pack.zip")).toEqual(bytes);
      }
    }
  });

  it("survives a power loss at any moment", () => {
    class PowerLoss extends Error {}
    for (let at = 1; at <= 5; at += 1) {
      const medium = new CrashStore();
      let after: CrashStore | undefined;
      const store = watchedStore(medium, CHANGING, ({ number }) => {
        if (number < at) return;
        after ??= medium.crash("torn", randomFrom(at));
        throw new PowerLoss();
      });
      let done = true;
      try {
        savePack(store, "pack.zip", bytes);
      } catch {
        done = false;
      }
      const left = (after ?? medium.crash("torn", randomFrom(at))).list("").map((item) => item.name);
      if (done) expect(left).toContain("pack.zip");
      if (left.includes("pack.zip")) expect((after ?? medium).read("pack.zip")).toEqual(bytes);
    }
  });

  it("checks for room first, never writes over, reads back", () => {
    const medium = memoryStore();
    expect(() => savePack(medium, "pack.zip", bytes, { freeBytes: 100 })).toThrow(
      expect.objectContaining({ code: "output.no-space" }),
    );
    expect(medium.list("")).toEqual([]);
    savePack(medium, "pack.zip", bytes, { freeBytes: 1_000_000 });
    expect(() => savePack(medium, "PACK.zip", bytes)).toThrow(
      expect.objectContaining({ code: "output.exists" }),
    );
    const lying: FileStore = { ...memoryStore(), read: () => new Uint8Array(3) };
    expect(() => savePack(lying, "pack.zip", bytes)).toThrow("What was written does not read back the same.");
    expect(lying.list("")).toEqual([]);
  });
});
