import { describe, expect, it } from "vitest";
import { memoryStore } from "../../../src/logbook/entries/index.ts";
import type { FileStore } from "../../../src/logbook/medium/file-store.ts";
import { readFolder } from "../../../src/logbook/medium/kept-files.ts";
import { fileName } from "../../../src/logbook/medium/layout.ts";

/** A folder of files, and a store that takes each of the first ones away just as it is about to be read. */
function vanishing(count: number, taken: number): FileStore {
  const inner = memoryStore();
  inner.createFolder("entries");
  for (let index = 0; index < count; index += 1) {
    const bytes = new TextEncoder().encode(`file ${index}`);
    inner.create(`entries/${fileName(index.toString(16).padStart(64, "0"), bytes)}`, bytes);
  }
  let left = taken;
  return {
    ...inner,
    read: (path) => {
      if (left > 0) {
        left -= 1;
        inner.remove(path);
      }
      return inner.read(path);
    },
  };
}

describe("reading while a binding takes files away", () => {
  it("starts over as often as the next file goes just then", () => {
    const { files, findings } = readFolder(vanishing(24, 20), "entries");
    expect(files.length).toBe(4);
    expect(findings).toEqual([]);
  });
});
