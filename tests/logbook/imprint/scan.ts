import { createRequire } from "node:module";

type Decode = (pixels: Uint8ClampedArray, width: number, height: number) => { readonly data: string } | null;

/** jsqr is CommonJS with types for modules; taken as what it is. */
const decode = createRequire(import.meta.url)("jsqr") as Decode;

/** What a reader of codes sees in a raster of dark and light squares, each `scale` pixels wide. */
export function scanned(
  rows: readonly (readonly boolean[])[],
  { scale = 4, inverted = false }: { readonly scale?: number; readonly inverted?: boolean } = {},
): string | undefined {
  const height = rows.length * scale;
  const width = (rows[0]?.length ?? 0) * scale;
  const pixels = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const isDark = rows[Math.floor(y / scale)]![Math.floor(x / scale)]!;
      const level = isDark === inverted ? 255 : 0;
      pixels.set([level, level, level, 255], (y * width + x) * 4);
    }
  }
  return scannedPixels(pixels, width, height);
}

/** What a reader of codes sees in a picture, four bytes a pixel. */
export function scannedPixels(pixels: Uint8ClampedArray, width: number, height: number): string | undefined {
  return decode(pixels, width, height)?.data;
}

/** The squares of a text of half blocks, padded to a rectangle; a space is light. */
export function halfBlockRows(lines: readonly string[]): readonly (readonly boolean[])[] {
  const width = Math.max(...lines.map((line) => line.length)) + 4;
  return lines.flatMap((line) => {
    const characters = Array.from(line.padEnd(width));
    return [
      characters.map((character) => character === "█" || character === "▀"),
      characters.map((character) => character === "█" || character === "▄"),
    ];
  });
}
