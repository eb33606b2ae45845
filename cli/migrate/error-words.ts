/** "3 errors for the new unit, 2 of which the old configuration has too" */
export function errorWords(count: number, before: number): string {
  const which =
    before === 0
      ? ""
      : before < count
        ? `, ${before} of which the old configuration has too`
        : `, which the old configuration has too`;
  return `${count} ${count === 1 ? "error" : "errors"} for the new unit${which}`;
}
