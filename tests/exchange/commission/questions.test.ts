import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Answers,
  buildConfiguration,
  nextQuestion,
  problemOf,
  type RoomAnswer,
  type RoomQuestion,
  readAnswer,
  withoutLastAnswer,
} from "../../../src/exchange/commission/index.ts";
import { readConfiguration, readDocument, type ScreenDescription } from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { loudspeakerData, profileNamed } from "./samples.ts";

const profiles = ["skarn-30", "skarn-36", "whimbrel-32", "dunlin-16"].map(profileNamed);
const known = { profiles, loudspeakers: loudspeakerData };

/** Any answer that a question takes, by a number from 0 to 1 (both ends of ranges are as likely as all between). */
function answerBy(question: RoomQuestion, chance: number): RoomAnswer {
  switch (question.kind) {
    case "text": {
      const offered = [
        question.default,
        question.optional === true ? "" : undefined,
        "10.20.4.31",
        "2.5.0",
        "A1",
        "X",
      ];
      const fitting = offered.filter(
        (text): text is string => text !== undefined && problemOf(question, text) === undefined,
      );
      return fitting[Math.min(fitting.length - 1, Math.floor(chance * fitting.length))]!;
    }
    case "number": {
      const share = Math.min(1, Math.max(0, chance * 1.4 - 0.2));
      const value = question.min + share * (question.max - question.min);
      const rounded = question.whole === true ? Math.round(value) : Math.round(value * 100) / 100;
      return Math.min(question.max, Math.max(question.min, rounded));
    }
    case "choice":
      return question.choices[
        Math.min(question.choices.length - 1, Math.floor(chance * question.choices.length))
      ]!.value;
    case "several":
      return question.choices
        .filter((_, index) => (chance * 997 * (index + 1)) % 1 < 0.5)
        .map(({ value }) => value);
    case "yes-no":
      return chance < 0.5;
  }
}

/** Answers every question by the next number of a list that goes round. */
function conversation(chances: readonly number[]): {
  readonly answers: Answers;
  readonly description: ScreenDescription;
} {
  let answers: Answers = {};
  for (let turn = 0; turn < 500; turn += 1) {
    const now = nextQuestion(known, answers);
    if (now.kind === "done") return { answers, description: now.description };
    const answer = answerBy(now.question, chances[turn % chances.length]!);
    expect(problemOf(now.question, answer), `${now.question.id}: ${String(answer)}`).toBeUndefined();
    answers = { ...answers, [now.question.id]: answer };
  }
  throw new Error("the questions have no end");
}

const chances = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 40, maxLength: 90 });

describe("questions for a first configuration", () => {
  it("whatever is answered in range gives a description by the schema and a configuration without an error", () => {
    fc.assert(
      fc.property(chances, (list) => {
        const { description } = conversation(list);
        const text = JSON.stringify(description);
        expect(readDocument(text, { expect: "boothkeep.screen-description" }).document).toEqual(
          JSON.parse(text),
        );
        const profile = profiles.find(({ id }) => id === description.unit.profileId)!;
        const { configuration, findings } = buildConfiguration({
          description,
          loudspeakers: loudspeakerData,
          profile,
        });
        expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
        expect(readConfiguration(JSON.stringify(configuration)).document).toEqual(configuration);
      }),
      { numRuns: runs(40), endOnFailure: true },
    );
  });

  it("go back one step at a time, to the first one, and come to the same end again", () => {
    fc.assert(
      fc.property(chances, (list) => {
        const { answers, description } = conversation(list);
        let back = answers;
        const asked: string[] = [];
        for (let turn = 0; turn < 500 && Object.keys(back).length > 0; turn += 1) {
          back = withoutLastAnswer(known, back);
          const now = nextQuestion(known, back);
          if (now.kind === "asks") asked.push(now.question.id);
        }
        expect(asked.at(-1)).toBe("screen/siteName");
        expect(new Set(asked).size).toBe(asked.length);
        expect(asked.length).toBe(Object.keys(answers).length);
        const again = nextQuestion(known, answers);
        expect(again.kind === "done" && again.description).toEqual(description);
      }),
      { numRuns: 10 },
    );
  });

  it("forget an answer that no longer fits when an earlier one changes", () => {
    const { answers } = conversation([0.1]);
    const other = { ...answers, "unit/profileId": "dunlin-16", "unit/firmware": "2.5.0" };
    const now = nextQuestion(known, other);
    expect(now.kind === "asks" && now.question.id).toBe("unit/firmware");
  });

  it("offer what the unit can do and nothing else", () => {
    const upTo = (id: string, given: Answers) => {
      let answers = given;
      for (let turn = 0; turn < 500; turn += 1) {
        const now = nextQuestion(known, answers);
        if (now.kind === "done") throw new Error(`'${id}' is not asked`);
        if (now.question.id === id) return now.question;
        answers = { ...answers, [now.question.id]: answerBy(now.question, 0) };
      }
      throw new Error("no end");
    };
    const format = upTo("formats/own", { "unit/profileId": "dunlin-16" });
    // Eight inputs: no format that needs positions 11 and 12; the lists in tests/reference/formats.json.
    expect(format.kind === "choice" && format.choices.map(({ value }) => value)).toEqual([
      "mono",
      "stereo",
      "5.1",
    ]);
    const drive = upTo("screen/drive", { "unit/profileId": "skarn-36" });
    expect(drive.kind === "choice" && drive.choices.map(({ value }) => value)).toEqual([
      "active-3",
      "active-2",
      "passive",
    ]);
  });
});

describe("typed answers", () => {
  const base = { id: "x", part: "p", words: "w", help: "h" };
  const metres: RoomQuestion = { ...base, kind: "number", unit: "m", min: 0.3, max: 100, default: 12 };
  const one: RoomQuestion = {
    ...base,
    kind: "choice",
    choices: [
      { value: "aes3", words: "AES3" },
      { value: "aes67", words: "AES67" },
    ],
  };
  const several: RoomQuestion = { ...one, kind: "several", default: [] };
  const yes: RoomQuestion = { ...base, kind: "yes-no", default: false };
  const name: RoomQuestion = { ...base, kind: "text", maxLength: 5 };

  it.each([
    [metres, "12.4", 12.4],
    [metres, "12,4 m", 12.4],
    [metres, "", 12],
    [{ ...metres, unit: "°C", min: -20 }, "−3", -3],
    [one, "2", "aes67"],
    [one, "AES3", "aes3"],
    [several, "2, 1", ["aes67", "aes3"]],
    [several, "none", []],
    [several, "", []],
    [yes, "Y", true],
    [yes, "", false],
    [name, " ab ", "ab"],
  ] as const)("%#: %j is understood", (question, line, answer) => {
    expect(readAnswer(question as RoomQuestion, line)).toEqual({ kind: "answer", answer });
  });

  it.each([
    [metres, "twelve"],
    [metres, "0.2"],
    [metres, "100.1"],
    [metres, "1e2"],
    [metres, "NaN"],
    [{ ...metres, whole: true }, "3.5"],
    [one, "3"],
    [one, ""],
    [one, "aes"],
    [several, "1 9"],
    [yes, "maybe"],
    [name, ""],
    [name, "abcdef"],
  ] as const)("%#: %j is refused in words", (question, line) => {
    const read = readAnswer(question as RoomQuestion, line);
    expect(read.kind === "problem" && read.words).toMatch(/^[A-Z].*[.\d]$/);
  });
});
