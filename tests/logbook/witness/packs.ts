import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { canonicalHash, sha256 } from "../../../src/base/canonical/index.ts";
import { unzipBytes } from "../../../src/logbook/pack/zip.ts";
import { runCommand } from "../../cli/run-command.ts";
import { handMadeZip } from "../pack/support.ts";
import { profiles, SCREEN, SITE, TRUSTED } from "./books.ts";
import { desk, type Stage } from "./stage.ts";

/** A sound pack and what is in it. */
export interface SoundPack {
  readonly isSigned: boolean;
  readonly bytes: Uint8Array;
  readonly files: ReadonlyMap<string, Uint8Array>;
}

export interface PackFault {
  readonly name: string;
  /** Only a pack with a signature can have it. */
  readonly signed?: true;
  /** Chooses among all bytes: another one each time, so that it has no row in the table. */
  readonly isDrawn?: true;
  readonly hit: (pack: SoundPack, draws: () => number) => Uint8Array;
}

/** Packs of the entry as left with those from before, made by the command. */
export async function soundPacks(stage: Stage): Promise<readonly SoundPack[]> {
  const cwd = desk(stage, "packs", "loose");
  writeFileSync(join(cwd, "key.pem"), TRUSTED.privateKeyPem);
  const packs: SoundPack[] = [];
  for (const isSigned of [false, true]) {
    const out = isSigned ? "signed.zip" : "plain.zip";
    const { code, err } = await runCommand(
      [
        ...["pack", "book", "--site", SITE, "--screen", SCREEN, "--out", out, "--previous", "2"],
        ...["--at", "2026-11-02T22:15:00+00:00", "--profiles", profiles],
        ...(isSigned ? ["--key", "key.pem"] : []),
      ],
      { cwd },
    );
    if (code !== 0) throw new Error(err);
    const bytes = new Uint8Array(readFileSync(join(cwd, out)));
    const files = new Map((await unzipBytes(bytes)).map((file) => [file.name, file.bytes]));
    packs.push({ isSigned, bytes, files });
  }
  return packs;
}

type Members = Record<string, unknown>;
type Files = Map<string, Uint8Array>;

const read = (files: Files, name: string) => JSON.parse(new TextDecoder().decode(files.get(name))) as Members;
const bytesOf = (document: unknown) =>
  new TextEncoder().encode(`${JSON.stringify(document, undefined, 2)}\n`);
const zipped = (files: Files) => handMadeZip([...files].map(([name, content]) => ({ name, content })));

/** The pack with files changed; the manifest's sizes and hashes are put right unless they are to lie. */
function withFiles(
  pack: SoundPack,
  change: (files: Files) => void,
  { putRight = true }: { readonly putRight?: boolean } = {},
): Uint8Array {
  const files = new Map(pack.files);
  change(files);
  if (putRight) {
    const manifest = read(files, "manifest.json");
    manifest.files = (manifest.files as Members[]).map((item) => {
      const bytes = files.get(item.name as string);
      return bytes === undefined ? item : { ...item, sizeBytes: bytes.length, sha256: sha256(bytes) };
    });
    files.set("manifest.json", bytesOf(manifest));
  }
  return zipped(files);
}

/** The settings changed: louder by 12 dB. */
function louder(files: Files): Members {
  const configuration = read(files, "configuration.json");
  const [first, ...others] = configuration.outputs as { gainDb: number }[];
  configuration.outputs = [{ ...first, gainDb: first!.gainDb + 12 }, ...others];
  files.set("configuration.json", bytesOf(configuration));
  return configuration;
}

function named(files: Files, configuration: unknown): void {
  const manifest = read(files, "manifest.json");
  files.set("manifest.json", bytesOf({ ...manifest, configuration: canonicalHash(configuration) }));
}

/** Settings, entry and manifest all changed so that they agree. */
function allPutRight(files: Files): void {
  const configuration = louder(files);
  const entry = { ...read(files, "entry.json"), configuration: canonicalHash(configuration) };
  files.set("entry.json", bytesOf(entry));
  const manifest = read(files, "manifest.json");
  files.set(
    "manifest.json",
    bytesOf({ ...manifest, configuration: canonicalHash(configuration), entry: canonicalHash(entry) }),
  );
}

export const PACK_FAULTS: readonly PackFault[] = [
  { name: "nothing", hit: ({ bytes }) => bytes },
  { name: "nothing, zipped again by another program", hit: (pack) => withFiles(pack, () => {}) },
  {
    name: "byte flipped",
    isDrawn: true,
    hit: ({ bytes }, draws) => {
      const copy = bytes.slice();
      copy[draws() % copy.length]! ^= 1 << (draws() % 8);
      return copy;
    },
  },
  { name: "truncated", hit: ({ bytes }, draws) => bytes.slice(0, draws() % bytes.length) },
  { name: "emptied", hit: () => new Uint8Array() },
  { name: "bytes behind the end", hit: ({ bytes }) => new Uint8Array([...bytes, 1, 2, 3]) },
  {
    name: "settings changed",
    hit: (pack) => withFiles(pack, louder, { putRight: false }),
  },
  {
    name: "settings changed, hash of the file put right",
    hit: (pack) => withFiles(pack, louder),
  },
  {
    name: "settings changed, every hash but the entry's put right",
    hit: (pack) => withFiles(pack, (files) => named(files, louder(files))),
  },
  {
    name: "settings changed, every hash put right, the old signature left",
    signed: true,
    hit: (pack) => withFiles(pack, allPutRight),
  },
  {
    name: "settings changed, every hash put right, no signature",
    hit: (pack) =>
      withFiles(pack, (files) => {
        allPutRight(files);
        files.delete("signature.json");
      }),
  },
  {
    name: "a file missing",
    hit: (pack) => withFiles(pack, (files) => files.delete("cautions.txt")),
  },
  {
    name: "a file more",
    hit: (pack) => withFiles(pack, (files) => files.set("read-me.txt", bytesOf("hello"))),
  },
  {
    name: "manifest missing",
    hit: (pack) => withFiles(pack, (files) => files.delete("manifest.json"), { putRight: false }),
  },
];
