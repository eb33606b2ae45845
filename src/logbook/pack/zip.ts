import { unzip, type ZipFile, type ZipRules, zip } from "../../base/zip/index.ts";
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

/** Bytes of a pack with these files in this order. The same files give the same bytes. */
export async function zipBytes(files: readonly ZipFile[]): Promise<Uint8Array> {
  return zip(files, PACK_RULES);
}

/**
 * The files of a pack that nobody vouches for.
 * @throws BoothkeepError with a code that starts with "pack."
 */
export function unzipBytes(bytes: Uint8Array): Promise<readonly ZipFile[]> {
  return unzip(bytes, PACK_RULES);
}
