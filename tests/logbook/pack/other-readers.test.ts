import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { crc32, deflateRawSync } from "node:zlib";
import { Open } from "unzipper";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import { writePack } from "../../../src/logbook/pack/index.ts";
import { unzipBytes } from "../../../src/logbook/pack/zip.ts";
import { outside, requireOutside } from "../../outside.ts";
import { randomFrom } from "../entries/support/random.ts";
import { handMadeZip, packContent } from "./support.ts";

/*
 * Two readers that share nothing with ours, Python's zipfile and Info-ZIP's unzip, and a third from npm, read the same few
 * hundred damaged zips. Whatever we take, they must take, with the same names and bytes: a zip that two programs read in
 * two ways can show one thing to whoever checks it and another to whoever loads it.
 */

const folder = mkdtempSync(join(tmpdir(), "zip-readers-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Name and CRC-32 of each file; undefined: refused. */
type Reading = Readonly<Record<string, number>> | undefined;

interface Case {
  readonly what: string;
  readonly bytes: Uint8Array;
}

const PYTHON = `
import json, sys, zipfile, zlib
read = []
for path in sys.stdin.read().split("\\n"):
    try:
        with zipfile.ZipFile(path) as archive:
            names = archive.namelist()
            if len(set(names)) != len(names): raise ValueError("twice")
            read.append({name: zlib.crc32(archive.read(name)) for name in names})
    except Exception:
        read.append(None)
print(json.dumps(read))`;

async function ours({ bytes }: Case): Promise<Reading> {
  try {
    return Object.fromEntries((await unzipBytes(bytes)).map((file) => [file.name, crc32(file.bytes)]));
  } catch (error) {
    expect(error).toBeInstanceOf(BoothkeepError);
    return undefined;
  }
}

async function unzippers({ bytes }: Case): Promise<Reading> {
  try {
    const { files } = await Open.buffer(Buffer.from(bytes));
    return Object.fromEntries(
      await Promise.all(files.map(async (file) => [file.path, crc32(await file.buffer())] as const)),
    );
  } catch {
    return undefined;
  }
}

/** What is wrong with a zip that is made by hand: each fault that the readers are known to treat in different ways. */
function faults(): readonly Case[] {
  const text = "settings ".repeat(40);
  const good = { name: "a.txt", content: text };
  const packed = deflateRawSync(Buffer.from(text));
  const made = (what: string, ...zip: Parameters<typeof handMadeZip>): Case => ({
    what,
    bytes: handMadeZip(...zip),
  });
  return [
    made("sound", [good, { name: "b.txt", content: "x", method: 0 }]),
    made("sound, with descriptors", [{ ...good, descriptor: true }]),
    made("bytes behind the packed data", [{ ...good, packed: Buffer.concat([packed, Buffer.from("more")]) }]),
    made("packed data that breaks off", [{ ...good, packed: packed.subarray(0, -2) }]),
    made("another name in the local header", [{ ...good, localName: "b.txt" }]),
    made("a name twice", [good, { ...good, content: "other" }]),
    made("a size that is too small", [{ ...good, sizeBytes: text.length - 1 }]),
    made("a size that is too large", [{ ...good, sizeBytes: text.length + 1 }]),
    made("a wrong CRC-32", [{ ...good, crc: 1 }]),
    made("an encrypted file", [{ ...good, flags: 1 }]),
    made("two files in one place", [good, { name: "b.txt", content: text, offset: 0 }]),
    made("a gap", [good, { name: "b.txt", content: "x", gapBefore: 7 }]),
    made("bytes ahead of it", [good], { leading: new Uint8Array(9) }),
    made("bytes behind it", [good], { trailing: new Uint8Array(9) }),
    made("a comment", [good], { comment: "hello" }),
    made("fewer files than are there", [good, { name: "b.txt", content: "x" }], { count: 1, countOnDisk: 1 }),
    made("more files than are there", [good], { count: 2 }),
    made("a method that is none", [{ ...good, method: 99 }]),
    made("a name that climbs", [{ ...good, name: "../a.txt" }]),
    made("stored as if it were deflated", [{ ...good, method: 0, packed, sizeBytes: text.length }]),
  ];
}

/** A whole pack with a few bytes changed, left out, put in or copied elsewhere. */
async function damagedPacks(count: number): Promise<readonly Case[]> {
  const whole = await writePack(packContent());
  const random = randomFrom(7);
  const upTo = (limit: number): number => Math.floor(random() * limit);
  return Array.from({ length: count }, (_none, index) => {
    const at = upTo(whole.length);
    const length = 1 + upTo(8);
    const kind = index % 4;
    const head = whole.slice(0, at);
    if (kind === 0) {
      const bytes = whole.slice();
      bytes[at]! ^= 1 << upTo(8);
      return { what: `bit flipped at ${at}`, bytes };
    }
    if (kind === 1)
      return { what: `${length} bytes left out at ${at}`, bytes: joined(head, whole.slice(at + length)) };
    if (kind === 2) {
      const more = Uint8Array.from({ length }, () => upTo(256));
      return { what: `${length} bytes put in at ${at}`, bytes: joined(head, more, whole.slice(at)) };
    }
    const bytes = whole.slice();
    bytes.copyWithin(at, upTo(whole.length), upTo(whole.length));
    return { what: `bytes copied to ${at}`, bytes };
  });
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts));
}

describe("other readers of zips", () => {
  let cases: readonly Case[] = [];
  let mine: readonly Reading[] = [];
  const fileOf = (index: number): string => join(folder, `${index}.zip`);

  beforeAll(async () => {
    cases = [...faults(), ...(await damagedPacks(300))];
    for (const [index, { bytes }] of cases.entries()) writeFileSync(fileOf(index), bytes);
    mine = await Promise.all(cases.map(ours));
  });

  /** Where we take a zip, so do they, and it holds the same. */
  function expectAgreement(theirs: readonly Reading[]): void {
    const apart = cases.flatMap(({ what }, index) => {
      const [own, other] = [mine[index], theirs[index]];
      return own === undefined || JSON.stringify(own) === JSON.stringify(other) ? [] : [what];
    });
    expect(apart).toEqual([]);
    expect(mine.filter((reading) => reading !== undefined).length).toBeGreaterThanOrEqual(2);
    expect(theirs.filter((reading) => reading !== undefined).length).toBeGreaterThanOrEqual(2);
  }

  it("of faults made by hand, just the two sound zips are read", () => {
    const read = faults().filter((_one, index) => mine[index] !== undefined);
    expect(read.map(({ what }) => what)).toEqual(["sound", "sound, with descriptors"]);
  });

  it.runIf(outside("python"))("Python's zipfile takes what we take, and finds the same in it", () => {
    const input = cases.map((_case, index) => fileOf(index)).join("\n");
    const { stdout, status } = spawnSync(requireOutside("python"), ["-c", PYTHON], {
      input,
      encoding: "utf8",
    });
    expect(status).toBe(0);
    expectAgreement((JSON.parse(stdout) as (Reading | null)[]).map((reading) => reading ?? undefined));
  });

  it.runIf(outside("unzip"))("Info-ZIP's unzip takes what we take, and finds the same in it", () => {
    // It is asked for those alone that we take: it starts once for each, and names of others may climb.
    const theirs = mine.map((own, index): Reading => {
      if (own === undefined) return undefined;
      const into = join(folder, String(index));
      if (spawnSync("unzip", ["-qq", fileOf(index), "-d", into]).status !== 0) return undefined;
      const names = readdirSync(into);
      const crcs = new Map(names.map((name) => [name, crc32(readFileSync(join(into, name)))]));
      // In our order, so that the two can be compared as texts.
      const order = Object.keys(own);
      return Object.fromEntries(
        [...order, ...names.filter((name) => !order.includes(name))].map((name) => [
          name,
          crcs.get(name) ?? -1,
        ]),
      );
    });
    expectAgreement(theirs);
  });

  it("a reader from npm takes what we take, and finds the same in it", async () => {
    const theirs: Reading[] = [];
    for (const [index, one] of cases.entries()) {
      theirs.push(mine[index] === undefined ? undefined : await unzippers(one));
    }
    expectAgreement(theirs);
  });
});
