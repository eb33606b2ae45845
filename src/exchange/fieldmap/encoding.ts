import { BoothkeepError } from "../../base/errors/index.ts";
import {
  bytesOfText,
  canEncode,
  type DecodedText,
  type Encoding,
  textOfBytes,
} from "../../base/text/index.ts";

export type { DecodedText } from "../../base/text/index.ts";

/** The largest export that is read, in bytes: 8 MiB. One with 5,000 values has about 0.1 MiB. */
export const MAX_EXPORT_BYTES = 8 * 1024 * 1024;

/**
 * Text of an export. A byte order mark decides; else the declared encoding holds.
 *
 * @throws BoothkeepError input.too-large, export.wrong-encoding
 */
export function decodeText(bytes: Uint8Array, declared: Encoding = "utf-8"): DecodedText {
  if (bytes.byteLength > MAX_EXPORT_BYTES) {
    throw new BoothkeepError(
      "input.too-large",
      `The export has ${bytes.byteLength} bytes; none is that large.`,
      {
        next: `Name an export of at most ${MAX_EXPORT_BYTES / 1024 / 1024} MiB: the settings of one unit.`,
        data: { bytes: bytes.byteLength, maxBytes: MAX_EXPORT_BYTES },
      },
    );
  }
  return textOfBytes(
    bytes,
    declared,
    (encoding, cause) =>
      new BoothkeepError("export.wrong-encoding", `The export is not text in ${encoding.toUpperCase()}.`, {
        next: "Check that map and export belong together, or name the export's encoding in the map's source (utf-8, utf-16le, utf-16be, latin-1).",
        cause,
      }),
  );
}

/**
 * Bytes of an export; the inverse of {@link decodeText}.
 *
 * @throws BoothkeepError export.wrong-encoding for a character that the encoding lacks
 */
export function encodeText(decoded: DecodedText): Uint8Array {
  if (!canEncode(decoded.encoding, decoded.text)) {
    throw new BoothkeepError(
      "export.wrong-encoding",
      `The text has characters that ${decoded.encoding} lacks.`,
      { next: "Take letters outside the encoding out of the labels." },
    );
  }
  return bytesOfText(decoded);
}
