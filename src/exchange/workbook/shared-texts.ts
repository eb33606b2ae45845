import { children, textIn, type XmlElement } from "./xml.ts";

/** The texts that cells refer to by number (ECMA-376-1, 18.4.9). */
export function sharedTexts(root: XmlElement): readonly string[] {
  return children(root, "si").map(richText);
}

/** A text that may have parts of several looks (18.4.8); hints of pronunciation are left out. */
export function richText(element: XmlElement): string {
  const runs = [element, ...children(element, "r")];
  return unescaped(
    runs
      .flatMap((run) => children(run, "t"))
      .map(textIn)
      .join(""),
  );
}

/** Characters that XML cannot hold stand as "_x000D_" (ECMA-376-1, 22.9.2.19, ST_Xstring). */
export function unescaped(text: string): string {
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_whole, digits: string) =>
    String.fromCharCode(Number.parseInt(digits, 16)),
  );
}
