import { type Imprint, imprintText } from "./imprint.ts";

/** An imprint ready to be printed. */
export interface PrintedImprint {
  readonly imprint: Imprint;
  /** What the code holds. */
  readonly text: string;
  /** The modules of the code, a text for each row from the top: "#" is dark, "." is light; with a quiet zone of four. */
  readonly modules: readonly string[];
}

/** Light modules round a code. Source: ISO/IEC 18004, quiet zone. */
const QUIET_MODULES = 4;

/**
 * The imprint as a QR code (ISO/IEC 18004) with the error correction for 15 % damaged codewords (level M): a paper in a
 * booth gets stains. The encoder is loaded with the first call.
 */
export async function printedImprint(imprint: Imprint): Promise<PrintedImprint> {
  const { default: encodeQR } = await import("qr");
  const text = imprintText(imprint);
  const rows = encodeQR(text, "raw", { ecc: "medium", border: QUIET_MODULES });
  return {
    imprint,
    text,
    modules: rows.map((row) => row.map((isDark) => (isDark ? "#" : ".")).join("")),
  };
}
