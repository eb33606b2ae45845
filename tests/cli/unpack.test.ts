import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalHash, sha256 } from "../../src/base/canonical/index.ts";
import { unzipBytes, zipBytes } from "../../src/logbook/pack/zip.ts";
import type { PackManifest } from "../../src/model/index.ts";
import { runCommand } from "./run-command.ts";

const samples = join(import.meta.dirname, "../../samples");
const root = mkdtempSync(join(tmpdir(), "unpack-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const run = (...args: readonly string[]) => runCommand(args, { cwd: root });

type Documents = Map<string, Uint8Array>;
type Json = Record<string, Record<string, unknown>>;

/** A pack in which documents were changed, with every size and hash of the manifest put right. */
async function packWith(
  name: string,
  change: (files: Documents, manifest: PackManifest) => void,
): Promise<string> {
  const files = new Map(
    (await unzipBytes(new Uint8Array(readFileSync(join(samples, "old/pack-1.0.zip"))))).map((file) => [
      file.name,
      file.bytes,
    ]),
  );
  files.delete("signature.json");
  const manifest = json(files, "manifest.json") as unknown as PackManifest;
  change(files, manifest);
  const configuration = json(files, "configuration.json");
  const entry = { ...json(files, "entry.json"), configuration: canonicalHash(configuration) };
  put(files, "entry.json", entry);
  put(files, "manifest.json", {
    ...manifest,
    configuration: canonicalHash(configuration),
    entry: canonicalHash(entry),
    files: manifest.files.map((file) => {
      const bytes = files.get(file.name)!;
      return { ...file, sizeBytes: bytes.length, sha256: sha256(bytes) };
    }),
  });
  writeFileSync(join(root, name), await zipBytes([...files].map(([own, bytes]) => ({ name: own, bytes }))));
  return name;
}

function json(files: Documents, name: string): Json {
  return JSON.parse(Buffer.from(files.get(name)!).toString()) as Json;
}

function put(files: Documents, name: string, value: unknown): void {
  files.set(name, new TextEncoder().encode(JSON.stringify(value)));
}

describe("unpack", () => {
  it.each<[string, string, (files: Documents, manifest: PackManifest) => void]>([
    [
      "site of the manifest",
      "pack.inconsistent",
      (_files, manifest) => Object.assign(manifest, { siteId: "elsewhere" }),
    ],
    [
      "screen of the manifest",
      "pack.inconsistent",
      (_files, manifest) => Object.assign(manifest, { screenId: "screen-9" }),
    ],
    [
      "serial number of the manifest",
      "pack.inconsistent",
      (_files, manifest) => Object.assign(manifest.unit, { serial: "D16-00001" }),
    ],
    [
      "unit profile of the manifest",
      "pack.inconsistent",
      (_files, manifest) => Object.assign(manifest.unit, { profileId: "gabbro-28" }),
    ],
    [
      "site of the entry",
      "pack.inconsistent",
      (files) => put(files, "entry.json", { ...json(files, "entry.json"), siteId: "elsewhere" }),
    ],
    [
      "number of an earlier entry",
      "pack.inconsistent",
      (files) =>
        put(files, "previous-entry-01.json", { ...json(files, "previous-entry-01.json"), number: 9 }),
    ],
    [
      "id of the unit profile",
      "pack.inconsistent",
      (files) => put(files, "unit-profile.json", { ...json(files, "unit-profile.json"), id: "other-16" }),
    ],
    [
      "shape of the configuration",
      "pack.unfit-document",
      (files) => {
        const { kind, schemaVersion, screen, unit } = json(files, "configuration.json");
        put(files, "configuration.json", { kind, schemaVersion, screen, unit });
      },
    ],
    [
      "shape of the unit profile",
      "pack.unfit-document",
      (files) => put(files, "unit-profile.json", { kind: "boothkeep.unit-profile", id: "dunlin-16" }),
    ],
  ])("refuses a pack with another %s (%s), and writes nothing", async (what, code, change) => {
    const file = await packWith(`${what.replaceAll(" ", "-")}.zip`, change);
    const before = readdirSync(root).length;
    const { code: exit, err } = await run("unpack", file, "--out", "taken", "--json");
    expect([exit, (JSON.parse(err) as { code: string }).code === code || err]).toEqual([exit, true]);
    expect(exit).toBe(3);
    expect(readdirSync(root)).toHaveLength(before);
  });

  describe("of a pack with two earlier entries of one number, and pages that act", () => {
    let taken: readonly string[] = [];
    let out = "";

    beforeAll(async () => {
      const file = await packWith("acting.zip", (files, manifest) => {
        const earlier = json(files, "previous-entry-01.json");
        put(files, "previous-entry-02.json", { ...earlier, recordedBy: "Another team" });
        files.set("previous-configuration-02.json", files.get("previous-configuration-01.json")!);
        const listed = ["previous-entry", "previous-configuration"].map((role) => ({
          ...manifest.files.find((one) => one.role === role)!,
          name: `${role}-02.json`,
        }));
        (manifest.files as unknown as object[]).push(...listed);
        files.set("sheet.html", new TextEncoder().encode("<script>alert(1)</script>"));
        files.set("sheet.txt", new TextEncoder().encode("\u001b]0;owned\u0007\u009b2J"));
      });
      const result = await run("unpack", file, "--out", "acting");
      expect([result.code, result.err]).toEqual([0, ""]);
      out = result.out;
      taken = readdirSync(join(root, "acting")).sort();
    });

    it("writes every document under the name that it lists", () => {
      const listed = [...out.matchAll(/[a-z0-9-]+\.(?:json|txt|html|bin)/g)].map(([name]) => name);
      expect(taken).toEqual(expect.arrayContaining(listed));
      expect(taken).toContain("previous-entry-02.json");
      expect(taken).toContain("previous-configuration-02.json");
      expect(taken).toContain("entry-signature-01.json");
    });

    it("makes the pages anew, and keeps the pack's own as bytes", () => {
      const text = (name: string) => readFileSync(join(root, "acting", name), "utf8");
      expect(text("sheet.html")).toMatch(/^<!doctype html>/i);
      expect(text("sheet.html")).not.toContain("<script");
      expect(text("sheet.txt")).not.toMatch(/\p{Cc}(?<!\n)/u);
      expect(text("as-packed-sheet-html.bin")).toBe("<script>alert(1)</script>");
    });

    it("leaves nothing beside the folder, and never writes over it", async () => {
      expect(readdirSync(root).filter((name) => name.startsWith("~"))).toEqual([]);
      expect((await run("unpack", "acting.zip", "--out", "acting")).code).toBe(2);
      expect(readdirSync(join(root, "acting")).sort()).toEqual(taken);
    });
  });
});
