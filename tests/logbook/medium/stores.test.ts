import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { folderStore, memoryStore } from "../../../src/logbook/entries/index.ts";
import { CrashStore } from "../entries/support/crash-store.ts";
import { fatStore } from "../entries/support/faulty-store.ts";
import { randomFrom } from "../entries/support/random.ts";
import { storeSuite } from "../entries/support/store-suite.ts";

const root = mkdtempSync(join(tmpdir(), "stores-"));
afterAll(() => rmSync(root, { recursive: true }));

storeSuite("folder", () => folderStore(mkdtempSync(join(root, "s-"))));
storeSuite("memory", () => memoryStore());
storeSuite("crash", () => new CrashStore());
storeSuite("FAT manners", () => fatStore(memoryStore()));

describe("folderStore", () => {
  it("knows a writer that has ended from one that runs", () => {
    const store = folderStore(root);
    const [, host] = /^~([0-9a-f]+)-/.exec(store.unfinishedName())!;
    expect(store.isAbandoned(store.unfinishedName())).toBe(false);
    expect(store.isAbandoned(`~${host}-${process.ppid}-x-1.tmp`)).toBe(false);
    // Linux hands out process numbers up to 2^22 (proc(5), pid_max).
    expect(store.isAbandoned(`~${host}-4194305-x-1.tmp`)).toBe(true);
    expect(store.isAbandoned("~00000000-4194305-x-1.tmp")).toBe(false);
  });
});

describe("CrashStore", () => {
  const bytes = new TextEncoder().encode("0123456789");
  const lostPower = (prepare: (store: CrashStore) => void, chance = () => 0) => {
    const store = new CrashStore();
    prepare(store);
    return store.crash("torn", chance);
  };

  it("keeps what was flushed, forgets names that were not", () => {
    const flushed = (store: CrashStore) => {
      store.create("a", bytes);
      store.sync("a");
      store.syncFolder("");
    };
    expect(lostPower(flushed, () => 0.9).read("a")).toEqual(bytes);
    expect(
      lostPower(
        (store) => store.create("a", bytes),
        () => 0.9,
      ).list(""),
    ).toEqual([]);
  });

  it("tears bytes that were not flushed under a name that was", () => {
    const torn = lostPower((store) => {
      store.create("a", bytes);
      store.syncFolder("");
    }, randomFrom(1));
    expect(torn.read("a").length).toBeLessThan(bytes.length);
  });
});
