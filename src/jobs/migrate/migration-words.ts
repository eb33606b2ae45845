import type { ScreenMigration } from "./migrate-screen.ts";

/** "3 errors for the new unit, 2 of which the old configuration has too" */
export function errorWords({
  errors,
  errorsBefore,
  errorsDecided,
}: Pick<ScreenMigration, "errors" | "errorsBefore" | "errorsDecided">): string {
  const count = errors.length;
  const which = (some: number, words: string) =>
    some === 0 ? "" : some < count ? `, ${some} of which ${words}` : `, which ${words}`;
  return `${count} ${count === 1 ? "error" : "errors"} for the new unit${
    which(errorsDecided, "the decisions and the proof account for") ||
    which(errorsBefore, "the old configuration has too")
  }`;
}

/** What came of a migration that is decided, in a few words. */
export function verdictWords(migration: ScreenMigration): string {
  const { proof, errors, unfounded } = migration;
  if (proof.verdict === "differs") return "the proof finds differences";
  if (unfounded.length > 0) return unfounded.join(" ");
  if (errors.length > 0) return errorWords(migration);
  return proof.verdict === "equal" ? "equal" : "within tolerance";
}
