/**
 * Whether a text fits a pattern in which a star stands for any text, also none. Goes over the text once, part by part
 * from the left: what comes first is enough, so nothing is ever tried again, however many stars there are.
 *
 * @example
 * fitsStars("hall-*", "hall-4"); // true
 */
export function fitsStars(pattern: string, text: string): boolean {
  const [first = "", ...rest] = pattern.split("*");
  const last = rest.pop();
  if (last === undefined) return pattern === text;
  if (text.length < first.length + last.length || !text.startsWith(first) || !text.endsWith(last))
    return false;
  const end = text.length - last.length;
  let at = first.length;
  for (const part of rest) {
    const found = text.indexOf(part, at);
    if (found < 0 || found + part.length > end) return false;
    at = found + part.length;
  }
  return true;
}

/** As {@link fitsStars} for texts in parts, "site/screen": a star stands for any text without a slash. */
export function fitsStarsByPart(pattern: string, text: string): boolean {
  const [patterns, parts] = [pattern.split("/"), text.split("/")];
  return patterns.length === parts.length && patterns.every((part, index) => fitsStars(part, parts[index]!));
}
