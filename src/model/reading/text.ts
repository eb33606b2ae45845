import { BoothkeepError } from "../../base/errors/index.ts";

/** The largest document that is read, in bytes: 32 MiB. A large configuration has about 0.3 MiB. */
export const MAX_DOCUMENT_BYTES = 32 * 1024 * 1024;

/**
 * The text of bytes in UTF-8, with or without a byte order mark.
 *
 * @throws BoothkeepError input.too-large, input.not-utf8
 */
export function textOf(content: Uint8Array | string): string {
  const size = typeof content === "string" ? content.length : content.byteLength;
  if (size > MAX_DOCUMENT_BYTES) {
    throw new BoothkeepError("input.too-large", `The text has ${size} bytes; no document is that large.`, {
      next: `Name a file of at most ${MAX_DOCUMENT_BYTES / 1024 / 1024} MiB.`,
      data: { bytes: size, maxBytes: MAX_DOCUMENT_BYTES },
    });
  }
  if (typeof content === "string") return content.startsWith("\ufeff") ? content.slice(1) : content;
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: false }).decode(content);
  } catch (cause) {
    throw new BoothkeepError("input.not-utf8", notUtf8Words(content), {
      next: "Save the file as text in UTF-8 and try again.",
      cause,
    });
  }
}

function notUtf8Words(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return "The file is text in UTF-16, not in UTF-8.";
  }
  if (first === 0x50 && second === 0x4b) return "The file is a zip archive, not a JSON document.";
  return "The file is not text in UTF-8.";
}
