import stringify from "json-stringify-pretty-compact";

/** A sample as the text of its file: two spaces, small objects and lists on one line, ends with a line end. */
export function sampleText(document: object): string {
  return `${stringify(document, { indent: 2, maxLength: 120 })}\n`;
}
