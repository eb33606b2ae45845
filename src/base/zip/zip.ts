import { deflateRawSync } from "node:zlib";
import type { ZipRules } from "./rules.ts";
import type { ZipFile } from "./unzip.ts";

/** The earliest time that a zip can carry (APPNOTE.TXT 4.4.6): contents, not the clock, decide a pack's bytes. */
const ZIP_EPOCH = new Date(Date.UTC(1980, 0, 1));
const PLAIN_MODE = 0o644;

/**
 * Bytes of a zip with these files in this order. The same files give the same bytes.
 *
 * @param rules what a reader will hold the zip against: nothing in it swells as far as it refuses
 */
export async function zip(
  files: readonly ZipFile[],
  { limits }: Pick<ZipRules, "limits">,
): Promise<Uint8Array> {
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
    archive.append(Buffer.from(bytes), {
      name,
      date: ZIP_EPOCH,
      mode: PLAIN_MODE,
      store: swells(bytes, limits.ratio),
    });
  }
  await Promise.all([archive.finalize(), collected]);
  return new Uint8Array(Buffer.concat(chunks));
}

/** Whether bytes would unpack to so many times their packed size that a reader takes them for a bomb. */
function swells(bytes: Uint8Array, ratio: number): boolean {
  return bytes.length > deflateRawSync(bytes).length * (ratio / 2);
}
