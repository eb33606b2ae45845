import type { ScreenMigration } from "../../src/jobs/index.ts";

type Errors = Pick<ScreenMigration, "errors" | "errorsBefore" | "errorsDecided">;

/** "3 errors for the new unit, 2 of which the old configuration has too" */
export function errorWords({ errors, errorsBefore, errorsDecided }: Errors): string {
  const count = errors.length;
  const which = (some: number, words: string) =>
    some === 0 ? "" : some < count ? `, ${some} of which ${words}` : `, which ${words}`;
  return `${count} ${count === 1 ? "error" : "errors"} for the new unit${
    which(errorsDecided, "the decisions and the proof account for") ||
    which(errorsBefore, "the old configuration has too")
  }`;
}
