/**
 * The order of names as a person counts them: "screen-2" before "screen-10". Digits are compared as whole numbers, all
 * else by UTF-16 code units, so that the order is the same on every system. Of "site/screen" the site comes first.
 */
export function naturalOrder(a: string, b: string): number {
  // A slash ends a name: "hall/screen-1" before "hall-2/screen-1".
  const left = a.split("/").flatMap((name) => [...partsOf(name), ""]);
  const right = b.split("/").flatMap((name) => [...partsOf(name), ""]);
  for (const [index, part] of left.entries()) {
    const other = right[index];
    if (other === undefined) return 1;
    const difference =
      isNumber(part) && isNumber(other) ? compareDigits(part, other) : compareText(part, other);
    if (difference !== 0) return difference;
  }
  return left.length - right.length || compareText(a, b);
}

function partsOf(text: string): readonly string[] {
  return text.match(/[0-9]+|[^0-9]+/g) ?? [];
}

function isNumber(part: string): boolean {
  return part.charCodeAt(0) >= 0x30 && part.charCodeAt(0) <= 0x39;
}

/** Numbers of any length. */
function compareDigits(a: string, b: string): number {
  const [left, right] = [a.replace(/^0+/, ""), b.replace(/^0+/, "")];
  return left.length - right.length || compareText(left, right);
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
