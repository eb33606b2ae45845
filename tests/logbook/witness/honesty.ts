import type { Audit } from "../../../src/model/index.ts";
import { SCREEN, SITE } from "./books.ts";
import { type Answer, type BookCommand, saidBy } from "./commands.ts";
import type { BookVerdict, HonestAnswer } from "./witness.ts";

/** Commands about one screen: each says in a line what of it cannot be seen. */
const ABOUT_SCREEN: ReadonlySet<BookCommand> = new Set([
  "restore",
  "history",
  "history --site",
  "show",
  "find",
  "pack",
  "handover-sheet",
  "entry-sheet",
  "visit",
  "match-paper",
]);

/** Commands that stop where a newer entry may be missing. */
const STOPS: ReadonlySet<BookCommand> = new Set([
  "restore",
  "pack",
  "handover-sheet",
  "entry-sheet",
  "visit",
]);

/** How many records of the screen an answer says are not here or damaged. */
function recordsTold(said: string): number {
  const line = new RegExp(`(\\d+) records? of ${SITE} / ${SCREEN} (?:is|are) (not here|damaged)`, "gi");
  const counts = new Map([...said.matchAll(line)].map(([, count, kind]) => [kind, Number(count)]));
  return [...counts.values()].reduce((sum, count) => sum + count, 0);
}

/**
 * What is dishonest about an answer; undefined where nothing is.
 *
 * @param soundCode what the command answers about the same logbook, sound
 */
export function dishonesty(
  command: BookCommand,
  answer: Answer,
  { verdict, soundCode }: { readonly verdict: BookVerdict; readonly soundCode: number },
): string | undefined {
  const honest = verdict.answers[command]!;
  const said = saidBy(answer);
  if (said.includes("a defect in boothkeep")) return `a crash: ${said.slice(0, 300)}`;
  if (command === "audit" && answer.out.startsWith("{")) return auditDishonesty(answer, honest, verdict);
  const codes = honest.exit.map((code) => (code === "sound" ? soundCode : code));
  if (!codes.includes(answer.code) && command !== "audit") {
    return `exit ${answer.code}, honest is ${codes.join(" or ")} (${honest.why}): ${said.slice(0, 400)}`;
  }
  const own = verdict.screens?.[`${SITE}/${SCREEN}`];
  if (own !== undefined && ABOUT_SCREEN.has(command) && verdict.header === "whole") {
    const unseen = own.missing + own.damaged;
    const told = recordsTold(said);
    // A restore lists them one by one among its findings; one that stops names those that may be newer than what is left.
    const isCounted = !STOPS.has(command) || (command !== "restore" && answer.code !== 3);
    const isTold = isCounted
      ? told === unseen
      : told <= unseen && /missing|damaged|not here|cannot be/.test(said);
    if (unseen > 0 && !said.includes("No entry of") && !isTold)
      return `tells of ${told} records that are not here or damaged, of ${unseen}: ${said.slice(0, 400)}`;
    if (own.unsettled && command !== "match-paper" && !/read[- ]back/i.test(said))
      return `does not say that the last read-back differs: ${said.slice(0, 400)}`;
  }
  if (command === "restore") return restoreDishonesty(answer, verdict, said);
  return undefined;
}

/** A file is written where an entry can be taken, and it holds that entry's settings. */
function restoreDishonesty(
  { code, loaded }: Answer,
  { restore }: BookVerdict,
  said: string,
): string | undefined {
  if (restore?.kind !== "takes") return loaded === undefined ? undefined : "a file was written";
  if (code === 0 && loaded !== restore.configuration) return "the file holds other settings";
  const untold = restore.passed.find(([id]) => !said.includes(id.slice(0, 8)));
  return untold && `does not say that ${untold.join(" ")} was passed over: ${said.slice(0, 400)}`;
}

/** The columns of an audit that say what the logbook is worth. */
const OF_RECORDS = new Set(["readable", "signed", "as-left"]);

function auditDishonesty(
  { code, out }: Answer,
  honest: HonestAnswer,
  verdict: BookVerdict,
): string | undefined {
  if (!honest.exit.includes("act")) return undefined;
  const { audit } = JSON.parse(out) as { audit: Audit };
  const spoken = audit.screens.flatMap(({ checks }) =>
    checks.filter(({ check, state }) => OF_RECORDS.has(check) && state !== "good" && state !== "advice"),
  );
  if (spoken.length === 0 || code === 0)
    return `exit ${code}, nothing said of the records (${honest.why}) ${JSON.stringify(verdict.unlisted)}`;
  return undefined;
}
