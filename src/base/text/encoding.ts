/** Encodings in which texts come. latin-1 is ISO/IEC 8859-1 itself: each byte is the code point of its number. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "latin-1";

/** A text with what is needed to get the very same bytes back. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: Encoding;
  readonly byteOrderMark: boolean;
}

const MARKS: readonly (readonly [Encoding, readonly number[]])[] = [
  ["utf-8", [0xef, 0xbb, 0xbf]],
  ["utf-16le", [0xff, 0xfe]],
  ["utf-16be", [0xfe, 0xff]],
];

/**
 * The text of bytes. A byte order mark decides; else the declared encoding holds.
 *
 * @param refuse makes the error for bytes that are no text in the encoding
 */
export function textOfBytes(
  bytes: Uint8Array,
  declared: Encoding,
  refuse: (encoding: Encoding, cause: unknown) => Error,
): DecodedText {
  const marked = MARKS.find(([, mark]) => mark.every((byte, i) => bytes[i] === byte));
  const encoding = marked?.[0] ?? declared;
  const body = bytes.subarray(marked?.[1].length ?? 0);
  try {
    return { text: textIn(encoding, body), encoding, byteOrderMark: marked !== undefined };
  } catch (cause) {
    throw refuse(encoding, cause);
  }
}

/** The bytes of a text that its encoding can hold: see {@link canEncode}. The inverse of {@link textOfBytes}. */
export function bytesOfText({ text, encoding, byteOrderMark }: DecodedText): Uint8Array {
  const mark = byteOrderMark ? (MARKS.find(([name]) => name === encoding)?.[1] ?? []) : [];
  return Buffer.concat([Uint8Array.from(mark), bytesIn(encoding, text)]);
}

/** Whether a text can be written in an encoding. */
export function canEncode(encoding: Encoding, text: string): boolean {
  return encoding === "latin-1" ? !/[^\0-\u00ff]/.test(text) : !/\p{Surrogate}/u.test(text);
}

function textIn(encoding: Encoding, bytes: Uint8Array): string {
  if (encoding === "latin-1") return Buffer.from(bytes).toString("latin1");
  return new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
}

function bytesIn(encoding: Encoding, text: string): Uint8Array {
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
