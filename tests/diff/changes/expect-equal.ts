import { isDeepStrictEqual } from "node:util";
import { expect } from "vitest";

/** As `expect(actual).toEqual(expected)`, which takes long to compare large documents that are equal. */
export function expectEqual(actual: unknown, expected: unknown): void {
  if (isDeepStrictEqual(actual, expected)) expect(true).toBe(true);
  else expect(actual).toStrictEqual(expected);
}
