import { deflateRawSync } from "node:zlib";
import { unzip, type ZipFile, type ZipRules } from "../zip/index.ts";
import { DEVICE_NAME, LIMITS, SAFE_NAME } from "./limits.ts";
import { refusal } from "./refusals.ts";

/** A pack is a zip of plain files; names are lower-case ASCII, so none differ by case alone. */
export const PACK_RULES: ZipRules = {
  noun: "pack",
  limits: { ...LIMITS, zipBytes: LIMITS.packBytes },
  isSafeName: (name) => SAFE_NAME.test(name) && !DEVICE_NAME.test(name),
  extras: false,
  refuse: (reason, message, name) => refusal(reason === "empty" ? "no-manifest" : reason, message, name),
};

/** The earliest time that a zip can carry (APPNOTE.TXT 4.4.6): contents, not the clock, decide a pack's bytes. */
const ZIP_EPOCH = new Date(Date.UTC(1980, 0, 1));
const PLAIN_MODE = 0o644;

/** Bytes of a zip with these files in this order. The same files give the same bytes. */
export async function zipBytes(files: readonly ZipFile[]): Promise<Uint8Array> {
  const { ZipArchive } = await import("archiver");
  const archive = new ZipArchive({ zlib: { level: 9 } });
  const chunks: Buffer[] = [];
  const collected = new Promise<void>((resolve, reject) => {
    archive.on("data", (chunk) => chunks.push(chunk));
    archive.on("warning", reject);
    archive.on("error", reject);
    archive.on("end", resolve);
  });
  for (const { name, bytes } of files) {
    archive.append(Buffer.from(bytes), { name, date: ZIP_EPOCH, mode: PLAIN_MODE, store: swells(bytes) });
  }
  await Promise.all([archive.finalize(), collected]);
  return new Uint8Array(Buffer.concat(chunks));
}

/** Whether bytes would unpack to so many times their packed size that a reader takes them for a bomb. */
function swells(bytes: Uint8Array): boolean {
  return bytes.length > deflateRawSync(bytes).length * (LIMITS.ratio / 2);
}

/**
 * The files of a pack that nobody vouches for.
 * @throws BoothkeepError with a code that starts with "pack."
 */
export async function unzipBytes(bytes: Uint8Array): Promise<readonly ZipFile[]> {
  return unzip(bytes, PACK_RULES);
}
