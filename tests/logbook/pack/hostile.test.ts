import { constants, deflateRawSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalHash, sha256 } from "../../../src/base/canonical/index.ts";
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import { checkZipStructure } from "../../../src/base/zip/index.ts";
import { readPack, writePack } from "../../../src/logbook/pack/index.ts";
import { PACK_RULES, unzipBytes } from "../../../src/logbook/pack/zip.ts";
import { runs } from "../../runs.ts";
import { type HandMade, type HandMadeEnd, handMadeZip, packContent } from "./support.ts";

const TWO: readonly HandMade[] = [
  { name: "a.txt", content: "first" },
  { name: "b.txt", content: "second", descriptor: true, flags: 0x800 },
];
const one = (member: Omit<HandMade, "name">): readonly HandMade[] => [
  { name: "a.txt", content: "first", ...member },
];
const named = (name: string | Uint8Array): readonly HandMade[] => [{ name, content: "x" }];

describe("a plain zip", () => {
  it("is read, stored or deflated, with or without descriptors", async () => {
    const stored = handMadeZip([...TWO, { name: "c.txt", content: "third", method: 0 }]);
    const files = await unzipBytes(stored);
    expect(files.map((file) => [file.name, Buffer.from(file.bytes).toString()])).toEqual([
      ["a.txt", "first"],
      ["b.txt", "second"],
      ["c.txt", "third"],
    ]);
  });
});

/** What is wrong, the refusal, the members, the end. */
const HOSTILE: readonly (readonly [string, string, readonly HandMade[], HandMadeEnd?])[] = [
  ["a name that climbs out", "unsafe-name", named("../evil.txt")],
  ["a name that climbs out later", "unsafe-name", named("a/../../evil.txt")],
  ["an absolute name", "unsafe-name", named("/etc/evil.txt")],
  ["a drive name", "unsafe-name", named("c:evil.txt")],
  ["a network name", "unsafe-name", named("\\\\host\\evil.txt")],
  ["a name with backslashes", "unsafe-name", named("..\\evil.txt")],
  ["a stream name", "unsafe-name", named("a.txt:evil")],
  ["a name with NUL", "unsafe-name", named("a.txt\0.html")],
  ["a name with a line end", "unsafe-name", named("a\n.txt")],
  ["an empty name", "unsafe-name", named("")],
  ["a folder", "unsafe-name", named("folder/")],
  ["a file in a folder", "unsafe-name", named("folder/a.txt")],
  ["a hidden name", "unsafe-name", named(".a.txt")],
  ["a trailing dot", "unsafe-name", named("a.txt.")],
  ["a trailing space", "unsafe-name", named("a.txt ")],
  ["a device name", "unsafe-name", named("con.txt")],
  ["a device name with a number", "unsafe-name", named("lpt1.txt")],
  ["an upper-case name", "unsafe-name", named("A.TXT")],
  ["a name outside ASCII", "unsafe-name", named("ä.txt")],
  ["the same name in another Unicode form", "unsafe-name", named("a\u0308.txt")],
  ["a name that is no UTF-8", "unsafe-name", named(new Uint8Array([0xff, 0x2e, 0x74]))],
  ["a very long name", "unsafe-name", named(`${"a".repeat(200)}.txt`)],
  ["one name twice", "duplicate-name", [...TWO, { name: "a.txt", content: "third" }]],
  ["names that differ by case", "unsafe-name", [...TWO, { name: "A.txt", content: "third" }]],
  ["an encrypted file", "encrypted", one({ flags: 1 })],
  ["strong encryption", "odd-feature", one({ flags: 0x40 })],
  ["an encrypted directory", "odd-feature", one({ flags: 0x2000 })],
  ["patched data", "odd-feature", one({ flags: 0x20 })],
  ["method 12 (bzip2)", "odd-method", one({ method: 12 })],
  ["method 99", "odd-method", one({ method: 99 })],
  ["a symbolic link", "not-a-file", one({ attributes: 0o120777 * 65536 })],
  ["a device", "not-a-file", one({ attributes: 0o020666 * 65536 })],
  ["a folder by its mode", "not-a-file", one({ attributes: 0o040755 * 65536 })],
  ["a folder by its DOS bit", "not-a-file", one({ attributes: 0x10 })],
  ["a mode from a system without modes", "not-a-file", one({ madeBy: 0 })],
  ["an extra field", "odd-feature", one({ extra: new Uint8Array([1, 0, 0, 0]) })],
  ["a file comment", "odd-feature", one({ comment: "hello" })],
  ["a 64-bit size", "too-large", one({ sizeBytes: 0xffffffff })],
  ["a bomb that admits its size", "too-large", one({ content: new Uint8Array(20_000_000) })],
  ["a bomb below the size limit", "too-large", one({ content: new Uint8Array(15_000_000) })],
  [
    "a bomb that lies about its size",
    "wrong-size",
    one({ packed: deflateRawSync(new Uint8Array(15_000_000)), content: "x".repeat(1000) }),
  ],
  [
    "many files that are large together",
    "too-large",
    Array.from({ length: 5 }, (_, index) => ({
      name: `${index}.bin`,
      content: "x",
      packed: new Uint8Array(200_000),
      sizeBytes: 15_000_000,
    })),
  ],
  ["a size that is too small", "wrong-size", one({ sizeBytes: 3 })],
  ["a size that is too large", "wrong-size", one({ sizeBytes: 30 })],
  ["a stored file with two sizes", "wrong-size", one({ method: 0, sizeBytes: 4 })],
  ["a wrong CRC-32", "damaged-file", one({ crc: 1 })],
  ["data that is not deflated", "damaged-file", one({ packed: new Uint8Array([0xff, 0xff, 0xff, 0xff]) })],
  [
    "data that breaks off",
    "damaged-file",
    one({ packed: deflateRawSync(Buffer.from("first")).subarray(0, 4) }),
  ],
  [
    "bytes behind the packed data of a file",
    "trailing-bytes",
    one({ packed: Buffer.concat([deflateRawSync(Buffer.from("first")), Buffer.from("<script>")]) }),
  ],
  ["another name in the local header", "inconsistent", one({ localName: "b.txt" })],
  ["a longer name in the local header", "inconsistent", one({ localName: "bb.txt" })],
  ["an offset into another file", "overlap", [TWO[0]!, { ...TWO[1]!, offset: 0 }]],
  ["an offset beyond the end", "overlap", one({ offset: 100_000 })],
  ["a packed size that reaches into the directory", "overlap", one({ packedBytes: 500, sizeBytes: 500 })],
  ["a gap between files", "overlap", [TWO[0]!, { ...TWO[1]!, gapBefore: 10 }]],
  ["bytes before the first file", "overlap", TWO, { leading: new Uint8Array(8) }],
  [
    "a program before the archive",
    "not-a-zip",
    TWO,
    { leading: new Uint8Array([0x4d, 0x5a, 0, 0]), directoryOffset: 0, comment: "x" },
  ],
  ["no file at all", "no-manifest", []],
  ["fewer files than it says", "inconsistent", TWO, { count: 3 }],
  ["more files than it says", "inconsistent", TWO, { count: 1 }],
  ["too many files", "too-large", Array.from({ length: 65 }, (_, index) => ({ name: `${index}.txt` }))],
  ["several disks", "odd-feature", TWO, { disk: 1 }],
  ["files on other disks", "odd-feature", TWO, { countOnDisk: 1 }],
  ["a directory elsewhere", "inconsistent", TWO, { directoryOffset: 5 }],
  ["a directory of another size", "inconsistent", TWO, { directoryBytes: 7 }],
  ["a comment", "odd-feature", TWO, { comment: "made by hand" }],
  ["trailing bytes", "trailing-bytes", TWO, { trailing: new Uint8Array(200) }],
  ["one trailing byte", "trailing-bytes", TWO, { trailing: new Uint8Array(1) }],
];

describe("a hostile zip", () => {
  it.each(HOSTILE.map(([what, code, members, end]) => ({ what, code, members, end })))(
    "with $what is refused in its own words",
    async ({ code, members, end }) => {
      await expect(unzipBytes(handMadeZip(members, end))).rejects.toMatchObject({
        name: "BoothkeepError",
        code: `pack.${code}`,
        exitCode: 3,
        message: expect.stringMatching(/\.$/),
      });
    },
  );

  it.each([
    ["nothing", new Uint8Array(), "not-a-zip"],
    ["text", new TextEncoder().encode("This is no zip, but text of some length."), "not-a-zip"],
    ["more than 32 MiB", new Uint8Array(32 * 1024 * 1024 + 1), "too-large"],
    ["a zip without its end", handMadeZip(TWO).slice(0, -30), "truncated"],
    ["a promised comment that is missing", handMadeZip(TWO, { comment: "x" }).slice(0, -1), "truncated"],
  ])("that is %s is refused in its own words", async (_what, bytes, code) => {
    await expect(unzipBytes(bytes)).rejects.toMatchObject({ code: `pack.${code}` });
  });

  it("is not unpacked beyond the size that it claims", async () => {
    // Blocks that end on a byte boundary may be repeated: 400 MB that were never there as a whole.
    const block = deflateRawSync(new Uint8Array(1_000_000), { finishFlush: constants.Z_SYNC_FLUSH });
    const packed = Buffer.concat([...Array<Uint8Array>(400).fill(block), Uint8Array.of(3, 0)]);
    const before = process.resourceUsage().maxRSS;
    const bomb = handMadeZip([{ name: "bomb.bin", packed, sizeBytes: 3_000_000, crc: 0 }]);
    await expect(unzipBytes(bomb)).rejects.toMatchObject({ code: "pack.wrong-size" });
    expect(process.resourceUsage().maxRSS - before).toBeLessThan(150_000);
  });
});

interface ListedFile {
  name: string;
  role: string;
  sha256: string;
  sizeBytes: number;
}

interface LooseManifest {
  files: ListedFile[];
  [name: string]: unknown;
}

/** The texts of a pack's files by name; the manifest apart, so that it can lie. */
interface Contents {
  readonly files: Map<string, string>;
  readonly manifest: LooseManifest;
}

/** A pack put together by hand after a change. */
async function packAfter(change: (contents: Contents) => void): Promise<Uint8Array> {
  const honest = await unzipBytes(await writePack(packContent()));
  const files = new Map(honest.map((file) => [file.name, Buffer.from(file.bytes).toString()]));
  const manifest = JSON.parse(files.get("manifest.json")!) as LooseManifest;
  change({ files, manifest });
  if (files.has("manifest.json")) files.set("manifest.json", JSON.stringify(manifest));
  return handMadeZip([...files].map(([name, content]) => ({ name, content })));
}

/** Puts other content into a file and lets the manifest vouch for it. */
function replaced(name: string, content: string) {
  return ({ files, manifest }: Contents) => {
    files.set(name, content);
    const listed = manifest.files.find((file) => file.name === name)!;
    Object.assign(listed, { sha256: sha256(content), sizeBytes: Buffer.byteLength(content) });
  };
}

/** Changes what the manifest says. */
function manifested(change: (manifest: LooseManifest) => unknown) {
  return ({ manifest }: Contents) => void change(manifest);
}

function cautionsOf(manifest: LooseManifest): ListedFile {
  return manifest.files.find((file) => file.role === "cautions")!;
}

const LYING: readonly (readonly [string, string, (contents: Contents) => void])[] = [
  ["without a manifest", "no-manifest", ({ files }) => files.delete("manifest.json")],
  ["with a file that is missing", "missing-file", ({ files }) => files.delete("cautions.txt")],
  ["with a file that is not listed", "extra-file", ({ files }) => files.set("more.txt", "x")],
  ["with a changed file", "wrong-hash", ({ files }) => files.set("sheet.txt", "screen 3\n")],
  ["with a nested zip", "nested-archive", replaced("sheet.txt", "PK\u0003\u0004 and so on")],
  ["with another configuration", "wrong-hash", replaced("configuration.json", "{}")],
  ["with a configuration that is no JSON", "damaged-file", replaced("configuration.json", "{")],
  ["with a member named twice", "damaged-file", replaced("configuration.json", '{"a":1,"a":2}')],
  ["with a configuration that is a list", "damaged-file", replaced("configuration.json", "[]")],
  [
    "with a document nested too deep",
    "damaged-file",
    replaced("configuration.json", `${"[".repeat(99)}${"]".repeat(99)}`),
  ],
  [
    "with a manifest of another kind",
    "no-manifest",
    manifested((manifest) => Object.assign(manifest, { kind: "boothkeep.entry" })),
  ],
  ["with a manifest that lacks a member", "no-manifest", manifested((manifest) => delete manifest.createdBy)],
  [
    "with a manifest that adds a member",
    "no-manifest",
    manifested((manifest) => Object.assign(manifest, { more: 1 })),
  ],
  [
    "with a file listed twice",
    "duplicate-name",
    manifested((manifest) => manifest.files.push(manifest.files[0]!)),
  ],
  [
    "with a climbing name",
    "no-manifest",
    manifested((manifest) => Object.assign(manifest.files[0]!, { name: "../a.txt" })),
  ],
  [
    "with a file in a wrong role",
    "missing-file",
    manifested((manifest) => Object.assign(cautionsOf(manifest), { role: "attachment" })),
  ],
  [
    "with a role filled twice",
    "extra-file",
    manifested((manifest) => Object.assign(cautionsOf(manifest), { role: "sheet-text" })),
  ],
  [
    "with an entry that is not there",
    "missing-file",
    manifested((manifest) => Object.assign(manifest, { entry: canonicalHash({}) })),
  ],
];

describe("a hostile pack", () => {
  it("is read when nothing is wrong with it", async () => {
    const bytes = await packAfter(() => {});
    expect((await readPack(bytes)).signature).toEqual({ kind: "unsigned" });
  });

  it.each(LYING)("%s is refused in its own words", async (_what, code, change) => {
    await expect(readPack(await packAfter(change))).rejects.toMatchObject({
      code: `pack.${code}`,
      exitCode: 3,
    });
  });

  it("of a newer version is named so", async () => {
    const bytes = await packAfter(
      manifested((manifest) => Object.assign(manifest, { schemaVersion: "2.0.0" })),
    );
    await expect(readPack(bytes)).rejects.toMatchObject({ code: "document.newer-version" });
  });
});

describe("reading any bytes", () => {
  it("ends with the pack or a refusal in words, whatever was changed", async () => {
    const whole = await writePack(packContent());
    const expected = await readPack(whole);
    await fc.assert(
      fc.asyncProperty(
        fc.nat(),
        fc.uint8Array({ minLength: 0, maxLength: 30 }),
        fc.nat(30),
        async (position, patch, dropped) => {
          const at = position % whole.length;
          const bytes = Uint8Array.from([...whole.slice(0, at), ...patch, ...whole.slice(at + dropped)]);
          if (Buffer.compare(bytes, whole) === 0) return;
          try {
            // Fields that carry no meaning here (versions, attributes of a plain file) may change.
            expect(await readPack(bytes)).toEqual(expected);
          } catch (error) {
            if (!(error instanceof BoothkeepError)) throw error;
            expect(error.code).toMatch(/^pack\.|^document\.newer-version$/);
          }
        },
      ),
      { numRuns: runs(400, 20_000) },
    );
  }, 600_000);

  it("never throws anything but a refusal while checking structure", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.boolean(), (noise, framed) => {
        const zip = handMadeZip(TWO);
        const bytes = framed ? Uint8Array.from([...zip.slice(0, 40), ...noise, ...zip.slice(-90)]) : noise;
        try {
          checkZipStructure(bytes, PACK_RULES);
        } catch (error) {
          expect(error).toBeInstanceOf(BoothkeepError);
        }
      }),
      { numRuns: 500 },
    );
  });
});
