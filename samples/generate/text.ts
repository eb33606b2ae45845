import stringify from "json-stringify-pretty-compact";

/** A sample as the text of its file: two spaces, small objects and every list of numbers on one line. */
export function sampleText(document: object): string {
  const text = stringify(document, { indent: 2, maxLength: 120 });
  return `${text.replace(NUMBERS_ON_LINES, (_all, numbers: string) => `[${numbers.replace(/\s+/g, " ")}]`)}\n`;
}

/** A list of numbers that was broken over lines. */
const NUMBERS_ON_LINES = /\[\n\s*(-?[\d.]+(?:,\n\s*-?[\d.]+)*)\n\s*\]/g;
