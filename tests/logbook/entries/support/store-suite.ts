import { describe, expect, it } from "vitest";
import { type FileStore, UNFINISHED } from "../../../../src/logbook/medium/file-store.ts";

const text = (content: string) => new TextEncoder().encode(content);

/** What every store must do; see the contract in src/logbook/entries/file-store.ts. */
export function storeSuite(name: string, fresh: () => FileStore): void {
  describe(`store contract: ${name}`, () => {
    it("gives back the bytes of a file, and its name in a sorted list", () => {
      const store = fresh();
      store.createFolder("b/c");
      store.create("b/two", text("2"));
      store.create("b/one", text(""));
      store.sync("b/two");
      store.syncFolder("b");
      expect(Buffer.from(store.read("b/two")).toString()).toBe("2");
      expect(store.read("b/one")).toHaveLength(0);
      expect(store.list("b")).toEqual([
        { name: "c", kind: "folder" },
        { name: "one", kind: "file" },
        { name: "two", kind: "file" },
      ]);
      expect(store.list("")).toEqual([{ name: "b", kind: "folder" }]);
    });

    it("writes large files whole", () => {
      const store = fresh();
      const large = new Uint8Array(3_000_000).map((_, index) => index % 251);
      store.create("large", large);
      store.sync("large");
      expect(Buffer.compare(store.read("large"), large)).toBe(0);
    });

    it("lists nothing for a folder that is not there", () => {
      expect(fresh().list("nowhere/at/all")).toEqual([]);
    });

    it("never writes over a file", () => {
      const store = fresh();
      store.create("a", text("first"));
      expect(() => store.create("a", text("second"))).toThrow(expect.objectContaining({ code: "EEXIST" }));
      expect(Buffer.from(store.read("a")).toString()).toBe("first");
    });

    it("says ENOENT for what is missing", () => {
      const store = fresh();
      const missing = expect.objectContaining({ code: "ENOENT" });
      expect(() => store.read("a")).toThrow(missing);
      expect(() => store.create("folder/a", text(""))).toThrow(missing);
      expect(() => store.sync("a")).toThrow(missing);
      expect(() => store.remove("a")).toThrow(missing);
      expect(() => store.rename("a", "b")).toThrow(missing);
    });

    it("moves a file", () => {
      const store = fresh();
      store.createFolder("to");
      store.create("a", text("moved"));
      store.rename("a", "to/b");
      store.syncFolder("to");
      expect(store.list("")).toEqual([{ name: "to", kind: "folder" }]);
      expect(Buffer.from(store.read("to/b")).toString()).toBe("moved");
    });

    it("creates folders that are there, removes folders that are empty", () => {
      const store = fresh();
      store.createFolder("a/b");
      store.createFolder("a/b");
      store.create("a/b/file", text(""));
      store.removeFolder("a/b");
      expect(store.list("a")).toEqual([{ name: "b", kind: "folder" }]);
      store.remove("a/b/file");
      store.removeFolder("a/b");
      store.removeFolder("a/b");
      expect(store.list("a")).toEqual([]);
    });

    it("keeps its own copy of the bytes", () => {
      const store = fresh();
      const bytes = text("kept");
      store.create("a", bytes);
      bytes.fill(0);
      store.read("a").fill(0);
      expect(Buffer.from(store.read("a")).toString()).toBe("kept");
    });

    it("gives fresh names to unfinished files, and doubts that their writer has ended", () => {
      const store = fresh();
      const names = [store.unfinishedName(), store.unfinishedName()];
      expect(new Set(names).size).toBe(2);
      for (const unfinished of names) expect(unfinished).toMatch(UNFINISHED);
      expect(store.isAbandoned("entry.gz")).toBe(false);
    });
  });
}
