import { attribute, children, type XmlElement } from "./xml.ts";

/** Number formats of dates and times that need no code (ECMA-376-1, 18.8.30, and the East Asian ones beside them). */
const DATE_FORMATS = [
  [14, 22],
  [27, 36],
  [45, 47],
  [50, 58],
] as const;

/**
 * For each cell style whether its numbers are shown as dates or times: spreadsheets make a date of "3.5" where that is how
 * dates are written, and the number behind it is another one.
 */
export function dateStyles(root: XmlElement): readonly boolean[] {
  const codes = new Map(
    children(children(root, "numFmts")[0], "numFmt").map((format) => [
      Number(attribute(format, "numFmtId")),
      attribute(format, "formatCode") ?? "",
    ]),
  );
  return children(children(root, "cellXfs")[0], "xf").map((style) => {
    const id = Number(attribute(style, "numFmtId") ?? 0);
    const code = codes.get(id);
    return code === undefined ? DATE_FORMATS.some(([from, to]) => id >= from && id <= to) : isDate(code);
  });
}

/** The longest format code that is looked at, in characters; from memory: spreadsheets take 255 at most. */
const LONGEST_FORMAT = 255;

/** Letters of dates and times outside quoted texts, brackets and escaped characters. */
function isDate(code: string): boolean {
  const bare = code.slice(0, LONGEST_FORMAT).replace(/"[^"]*"|\\.|_.|\*.|\[(?!h|m|s)[^\]]*\]/gi, "");
  return /[ymdhs]/i.test(bare.replace(/general/gi, ""));
}
