import { BoothkeepError } from "../errors/index.ts";

/** Encodings in which exports come. latin-1 is ISO/IEC 8859-1 itself: each byte is the code point of its number. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "latin-1";

/** The text of an export, with what is needed to get the very same bytes back. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: Encoding;
  readonly byteOrderMark: boolean;
}

/** The largest export that is read, in bytes: 8 MiB. One with 5,000 values has about 0.1 MiB. */
export const MAX_EXPORT_BYTES = 8 * 1024 * 1024;

const MARKS: readonly (readonly [Encoding, readonly number[]])[] = [
  ["utf-8", [0xef, 0xbb, 0xbf]],
  ["utf-16le", [0xff, 0xfe]],
  ["utf-16be", [0xfe, 0xff]],
];

/**
 * Text of bytes. A byte order mark decides; else the declared encoding holds.
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
  const marked = MARKS.find(([, mark]) => mark.every((byte, i) => bytes[i] === byte));
  const encoding = marked?.[0] ?? declared;
  const body = bytes.subarray(marked?.[1].length ?? 0);
  return { text: textIn(encoding, body), encoding, byteOrderMark: marked !== undefined };
}

/**
 * Bytes of a text; the inverse of {@link decodeText}.
 *
 * @throws BoothkeepError export.wrong-encoding for a character that the encoding lacks
 */
export function encodeText({ text, encoding, byteOrderMark }: DecodedText): Uint8Array {
  const mark = byteOrderMark ? (MARKS.find(([name]) => name === encoding)?.[1] ?? []) : [];
  return Buffer.concat([Uint8Array.from(mark), bytesIn(encoding, text)]);
}

/** Whether a text can be written in an encoding. */
export function canEncode(encoding: Encoding, text: string): boolean {
  return encoding === "latin-1" ? !/[^\0-\u00ff]/.test(text) : !/\p{Surrogate}/u.test(text);
}

function textIn(encoding: Encoding, bytes: Uint8Array): string {
  if (encoding === "latin-1") return Buffer.from(bytes).toString("latin1");
  try {
    return new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (cause) {
    throw new BoothkeepError(
      "export.wrong-encoding",
      `The export is not text in ${encoding.toUpperCase()}.`,
      {
        next: "Name the encoding of the export in the map's source (utf-8, utf-16le, utf-16be, latin-1).",
        cause,
      },
    );
  }
}

function bytesIn(encoding: Encoding, text: string): Uint8Array {
  if (!canEncode(encoding, text)) {
    throw new BoothkeepError("export.wrong-encoding", `The text has characters that ${encoding} lacks.`, {
      next: "Take letters outside the encoding out of the labels.",
    });
  }
  switch (encoding) {
    case "utf-8":
      return Buffer.from(text, "utf8");
    case "latin-1":
      return Buffer.from(text, "latin1");
    case "utf-16le":
      return Buffer.from(text, "utf16le");
    case "utf-16be":
      return Buffer.from(text, "utf16le").swap16();
  }
}
