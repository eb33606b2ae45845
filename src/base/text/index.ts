export { type CsvCell, type CsvForm, csvCell, csvText, guarded, withoutGuard } from "./csv.ts";
export { bytesOfText, canEncode, type DecodedText, type Encoding, textOfBytes } from "./encoding.ts";
export { harmless, harmlessText, linesOf } from "./harmless.ts";
export { jsonText } from "./json-text.ts";
export { naturalOrder } from "./natural-order.ts";
export { type NumberFormat, numberOfText, textOfNumber, twelveDigits } from "./number-text.ts";
export { fitsStars, fitsStarsByPart } from "./star-pattern.ts";
