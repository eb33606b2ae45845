/** The digits of an id or a hash in groups of sixteen, which fit a line and can be compared by eye. */
export function groupedDigits(digits: string): string {
  return digits.match(/.{1,16}/g)?.join(" ") ?? digits;
}
