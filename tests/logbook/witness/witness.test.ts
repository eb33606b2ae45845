import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { outside } from "../../outside.ts";
import { LONG } from "../../runs.ts";
import { SCREEN, SITE, type SoundBook, VARIANTS, type Variant } from "./books.ts";
import {
  type Answer,
  ask,
  BOOK_COMMANDS,
  type BookCommand,
  FILE_COMMANDS,
  PACK_COMMANDS,
  type PackCommand,
  saidBy,
} from "./commands.ts";
import { FAULTS, type Fault } from "./faults.ts";
import { dishonesty } from "./honesty.ts";
import { PACK_FAULTS, type PackFault, type SoundPack, soundPacks } from "./packs.ts";
import { desk, paperOf, type Stage, setStage } from "./stage.ts";
import { type Row, rowsOnPage, writeTable } from "./table.ts";
import { type BookVerdict, type PackVerdict, testify } from "./witness.ts";

/*
 * Damaged logbooks and packs, judged twice: by a script in Python that knows the format page and the standards it names, and by
 * every command that reads one. No command may answer well where the script finds fault.
 */

const UPDATE = process.env.UPDATE_GOLDEN === "1";
/** Asking every command about every fault takes its time. */
const WHOLE_TIMEOUT_MS = UPDATE || LONG ? 3_600_000 : 60_000;
const BOOK_NAMES = Object.keys(BOOK_COMMANDS) as BookCommand[];
const PACK_NAMES = Object.keys(PACK_COMMANDS) as PackCommand[];

let stage: Stage;
beforeAll(async () => {
  stage = await setStage();
});
afterAll(() => rmSync(stage.root, { recursive: true, force: true }));

// ------------------------------------------------------------------ logbooks

/** A logbook that something happened to. */
interface Hit {
  readonly cwd: string;
  readonly book: SoundBook;
  readonly words: string;
}

let count = 0;

/** A generator of whole numbers, the same after the same seed (Lehmer 1951, with the factor of Park and Miller 1988). */
function drawsFrom(seed: number): () => number {
  let state = (seed % 2_147_483_646) + 1;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return state;
  };
}

function hit(variant: Variant, faults: readonly Fault[], seed: number): Hit {
  count += 1;
  const cwd = desk(stage, `case-${count}`, variant);
  const book = stage.books.get(variant)!;
  const victim = { folder: join(cwd, "book"), book, first: stage.first, draws: drawsFrom(seed) };
  const names: string[] = [];
  for (const fault of faults) {
    try {
      fault.hit(victim);
      names.push(fault.name);
    } catch {
      // What the fault hits was lost by the one before.
    }
  }
  return { cwd, book, words: `${variant}: ${names.join(" + ")} (${seed})` };
}

function verdictsOn(hits: readonly Hit[]): readonly BookVerdict[] {
  return testify(
    hits.map(({ cwd, book }) => ({
      kind: "logbook",
      folder: join(cwd, "book"),
      site: SITE,
      screen: SCREEN,
      paper: book.entryId,
    })),
  );
}

const soundBooks = new Map<Variant, Hit>();
const soundAnswers = new Map<string, Promise<Answer>>();

/** What a command answers about a sound logbook; none gets in the way of another. */
function soundAnswer(variant: Variant, command: BookCommand): Promise<Answer> {
  const one = soundBooks.get(variant) ?? hit(variant, [], 0);
  soundBooks.set(variant, one);
  const key = `${variant} ${command}`;
  const answer = soundAnswers.get(key) ?? answerOf(one, command);
  soundAnswers.set(key, answer);
  return answer;
}

function answerOf({ cwd, book }: Hit, command: BookCommand): Promise<Answer> {
  return ask(BOOK_COMMANDS[command]({ cwd, paper: paperOf(book) }), cwd);
}

type Answers = ReadonlyMap<BookCommand, Answer>;

async function answersOf(one: Hit, commands: readonly BookCommand[]): Promise<Answers> {
  const answers = new Map<BookCommand, Answer>();
  for (const command of commands) answers.set(command, await answerOf(one, command));
  rmSync(one.cwd, { recursive: true, force: true });
  return answers;
}

/** What is dishonest about answers, with the case that it was. */
async function dishonestiesIn(one: Hit, verdict: BookVerdict, answers: Answers): Promise<readonly string[]> {
  const found: string[] = [];
  for (const [command, answer] of answers) {
    const soundCode = (await soundAnswer(one.book.variant, command)).code;
    const wrong = dishonesty(command, answer, { verdict, soundCode });
    if (wrong !== undefined) found.push(`${one.words}\n  ${command}: ${wrong}`);
  }
  return found;
}

/** Some of the commands, other ones for each case, so that all have their turn. */
function turn<T>(all: readonly T[], index: number, size: number): readonly T[] {
  return Array.from({ length: size }, (_, at) => all[(index * size + at) % all.length]!);
}

const tabled = FAULTS.filter(({ isDrawn }) => isDrawn !== true);
const variantOf = ({ variants = VARIANTS }: Fault) => variants[0]!;
/** A number like any other: the table has the same cases always. */
const TABLE_SEED = 7;

interface JsonAnswer {
  readonly message?: string;
  readonly findings?: readonly { readonly words: string; readonly severity: string }[];
}

/** What an answer says that the one about a sound logbook does not, in the words of the first error or finding. */
function wordsOf({ out, err }: Answer, sound: Answer): string | undefined {
  const parse = (text: string): JsonAnswer => {
    const line = text.split("\n").find((candidate) => candidate.startsWith("{"));
    return line === undefined ? {} : (JSON.parse(line) as JsonAnswer);
  };
  const plain = (words: string) =>
    words
      .replaceAll(/[0-9a-f]{8,}/g, "…")
      .replaceAll(/\d{4}-\d\d-\d\d/g, "DATE")
      .replaceAll(/, …\)/g, ")");
  const known = new Set((parse(sound.out).findings ?? []).map(({ words }) => plain(words)));
  const said = [parse(err).message, ...(parse(out).findings ?? []).map(({ words }) => words)];
  const fresh = said.filter((words) => words !== undefined).map(plain);
  return fresh.find((words) => !known.has(words))?.split(/(?<=\.) /)[0];
}

async function rowOf(fault: Fault, { book }: Hit, answers: Answers): Promise<Row> {
  let says: string | undefined;
  for (const command of ["restore", "verify"] as const) {
    const answer = answers.get(command);
    if (answer !== undefined) says ??= wordsOf(answer, await soundAnswer(book.variant, command));
  }
  const codes = Object.fromEntries([...answers].map(([command, { code }]) => [command, code]));
  return { fault: fault.name, says: says ?? "nothing", codes };
}

function expectOnPage(mark: string, rows: readonly Row[]): void {
  if (UPDATE) writeTable(mark, rows);
  const page = rowsOnPage(mark);
  expect(page.map(({ fault }) => fault)).toEqual(rows.map(({ fault }) => fault));
  for (const [index, row] of rows.entries()) expect(page[index]).toMatchObject(row);
}

describe.runIf(outside("python") && outside("openssl"))(
  "a damaged logbook, as a script in Python judges it",
  () => {
    it("is called sound where it is sound", () => {
      const hits = VARIANTS.map((variant) => hit(variant, [], 0));
      for (const [index, verdict] of verdictsOn(hits).entries()) {
        expect(verdict).toMatchObject({ header: "whole", untrue: [], unlisted: [] });
        expect(verdict.restore).toMatchObject({ kind: "takes", id: hits[index]!.book.entryId });
      }
    });

    it(
      "is never called good: each fault, as the table of the format page has it",
      async () => {
        const hits = tabled.map((fault) => hit(variantOf(fault), [fault], TABLE_SEED));
        const verdicts = verdictsOn(hits);
        const [seed] = fc.sample(fc.nat(), 1);
        // All commands for one fault, and for all where there is time.
        const drawn = new Set(turn(tabled, seed!, 1));
        const rows: Row[] = [];
        const wrong: string[] = [];
        for (const [index, fault] of tabled.entries()) {
          const isWhole = LONG || UPDATE || drawn.has(fault);
          const answers = await answersOf(
            hits[index]!,
            isWhole ? BOOK_NAMES : ["restore", "history", "verify"],
          );
          wrong.push(...(await dishonestiesIn(hits[index]!, verdicts[index]!, answers)));
          rows.push(await rowOf(fault, hits[index]!, answers));
        }
        expect(wrong.join("\n")).toBe("");
        expectOnPage("faults of a logbook", rows);
      },
      WHOLE_TIMEOUT_MS,
    );

    it(
      "is never called good: faults drawn by chance, one upon the other",
      async () => {
        const cases = fc.sample(
          fc.record({
            variant: fc.constantFrom(...VARIANTS),
            faults: fc.array(fc.constantFrom(...FAULTS), { minLength: 1, maxLength: 3 }),
            seed: fc.nat(),
          }),
          LONG ? 24 : 18,
        );
        const hits = cases.map(({ variant, faults, seed }) => {
          const fitting = faults.filter(({ variants = VARIANTS }) => variants.includes(variant));
          return hit(variant, fitting, seed);
        });
        const verdicts = verdictsOn(hits);
        const wrong: string[] = [];
        for (const [index, one] of hits.entries()) {
          const answers = await answersOf(one, LONG ? BOOK_NAMES : turn(BOOK_NAMES, index, 3));
          wrong.push(...(await dishonestiesIn(one, verdicts[index]!, answers)));
        }
        expect(wrong.join("\n")).toBe("");
      },
      WHOLE_TIMEOUT_MS,
    );

    it("is no configuration: commands that take a file refuse it, and a pack", async () => {
      const { cwd } = hit("loose", [], 0);
      writeFileSync(join(cwd, "pack.zip"), packs[0]!.bytes);
      for (const [name, args] of Object.entries(FILE_COMMANDS)) {
        expect((await ask(args, cwd)).code, name).toBe(2);
      }
    });
  },
);

// ------------------------------------------------------------------ packs

let packs: readonly SoundPack[] = [];
beforeAll(async () => {
  packs = await soundPacks(stage);
});

function packHit(
  isSigned: boolean,
  fault: PackFault,
  seed: number,
): { readonly cwd: string; readonly words: string } {
  count += 1;
  const cwd = desk(stage, `case-${count}`);
  const pack = packs.find((one) => one.isSigned === isSigned)!;
  writeFileSync(join(cwd, "pack.zip"), fault.hit(pack, drawsFrom(seed)));
  return { cwd, words: `${isSigned ? "signed" : "unsigned"} pack: ${fault.name} (${seed})` };
}

function packVerdicts(hits: readonly { readonly cwd: string }[]) {
  return testify(hits.map(({ cwd }) => ({ kind: "pack", file: join(cwd, "pack.zip"), paper: "" })));
}

async function packAnswers(
  cwd: string,
  commands: readonly PackCommand[] = PACK_NAMES,
): Promise<ReadonlyMap<PackCommand, Answer>> {
  const paper = paperOf(stage.books.get("loose")!);
  const answers = new Map<PackCommand, Answer>();
  for (const command of commands)
    answers.set(command, await ask(PACK_COMMANDS[command]({ cwd, paper }), cwd));
  rmSync(cwd, { recursive: true, force: true });
  return answers;
}

describe.runIf(outside("python") && outside("openssl"))(
  "a pack that is not what it says, as a script in Python judges it",
  () => {
    let sound: ReadonlyMap<PackCommand, Answer>;
    beforeAll(async () => {
      sound = await packAnswers(packHit(true, PACK_FAULTS[0]!, 0).cwd);
    });

    /** Where the script finds nothing, a command may still refuse what no pack of ours has, a byte behind the end. */
    function packDishonesties(
      words: string,
      { fault, answers: honestAnswers }: PackVerdict,
      answers: ReadonlyMap<PackCommand, Answer>,
    ) {
      return [...answers].flatMap(([command, answer]) => {
        const said = saidBy(answer);
        const isCrash = said.includes("a defect in boothkeep");
        const codes = honestAnswers[command]!.exit.map((code) =>
          code === "sound" ? sound.get(command)!.code : code,
        );
        const honest = fault === null ? [...codes, 3] : codes;
        return honest.includes(answer.code) && !isCrash
          ? []
          : [
              `${words}\n  ${command}: exit ${answer.code}, honest is ${honest.join(" or ")} (${fault}): ${said.slice(0, 200)}`,
            ];
      });
    }

    it("is refused by every command: each fault, as the table of the format page has it", async () => {
      const faults = PACK_FAULTS.filter(({ isDrawn }) => isDrawn !== true);
      const hits = faults.map((fault) => packHit(fault.signed === true, fault, TABLE_SEED));
      const verdicts = packVerdicts(hits);
      const wrong: string[] = [];
      const rows: Row[] = [];
      for (const [index, { cwd, words }] of hits.entries()) {
        const some: readonly PackCommand[] = ["unpack", ...turn(PACK_NAMES, index, 2)];
        const answers = await packAnswers(cwd, LONG || UPDATE ? PACK_NAMES : [...new Set(some)]);
        wrong.push(...packDishonesties(words, verdicts[index]!, answers));
        const codes = Object.fromEntries([...answers].map(([command, { code }]) => [command, code]));
        const { err } = answers.get("unpack")!;
        const [said] = /(?<=boothkeep: )[\s\S]*?(?=\n(?:Where|Next))/.exec(err) ?? ["nothing"];
        rows.push({ fault: faults[index]!.name, says: said.replaceAll(/\s+/g, " "), codes });
      }
      expect(wrong.join("\n")).toBe("");
      expectOnPage("faults of a pack", rows);
    });

    it("is refused by every command: bytes flipped by chance", async () => {
      const fault = PACK_FAULTS.find(({ isDrawn }) => isDrawn === true)!;
      const seeds = fc.sample(fc.nat(), LONG ? 8 : 4);
      const hits = seeds.map((seed, index) => packHit(index % 2 === 0, fault, seed));
      const verdicts = packVerdicts(hits);
      const wrong: string[] = [];
      for (const [index, { cwd, words }] of hits.entries()) {
        wrong.push(...packDishonesties(words, verdicts[index]!, await packAnswers(cwd)));
      }
      expect(wrong.join("\n")).toBe("");
    });
  },
);
