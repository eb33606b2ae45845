import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { pack, packLines, unpack, unpackLines } from "../../../src/logbook/medium/gzip-lines.ts";

describe("gzip members", () => {
  it("give back what went in", () => {
    expect(unpackLines(packLines(["a", "", "ü"]))).toEqual(["a", "", "ü"]);
    expect(unpack(pack(new Uint8Array([0, 255])))).toEqual(new Uint8Array([0, 255]));
  });

  it("are the same whatever system writes them: time, flags and system are fixed", () => {
    expect([...pack("x").subarray(0, 10)]).toEqual([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255]);
  });

  it("are refused with any other header, though other programs would take them", () => {
    const bytes = pack("some text");
    for (let at = 0; at < 10; at += 1) {
      expect(unpack(bytes.map((byte, index) => (index === at ? byte ^ 1 : byte)))).toBeUndefined();
    }
    expect(unpack(gzipSync("some text"))).toBeUndefined();
  });

  it("are refused when cut, followed by more, or not lines of UTF-8", () => {
    const bytes = packLines(["some text"]);
    expect(unpackLines(bytes.slice(0, -1))).toBeUndefined();
    expect(unpackLines(pack("no line end"))).toBeUndefined();
    expect(unpackLines(pack(new Uint8Array([0xff, 0x0a])))).toBeUndefined();
  });
});
