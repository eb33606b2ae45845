import { describe, expect, it } from "vitest";
import type { Question } from "../../src/model/index.ts";
import { renderText, repatchSheet } from "../../src/report/index.ts";

const question = (id: string, optionIds: readonly string[], chosen?: string): Question => ({
  id,
  place: { address: id, words: `Place of ${id}` },
  words: "What shall be done?",
  options: optionIds.map((optionId) => ({
    id: optionId,
    words: `Words of ${optionId}.`,
    consequence: `What ${optionId} comes to.`,
    numbers: {},
  })),
  unanswered: { optionId: optionIds[0]!, words: "The first." },
  ...(chosen === undefined ? {} : { answer: { optionId: chosen } }),
});

const names = { screen: "Quarry Lane, Screen 2", from: "Old 8", to: "New 8" };
const sheet = (questions: readonly Question[]) =>
  renderText(repatchSheet({ cables: [], questions }, { names }));

describe("the re-patch sheet", () => {
  it("has a box for everything that the decisions ask for in the rack", () => {
    const text = sheet([
      question("outputs/left-hf/polarity", ["in-the-cable", "not-inverted"], "in-the-cable"),
      question("outputs/left-lf/limiter", ["mute-output", "limiter-elsewhere"], "limiter-elsewhere"),
      question("outputs/room-analog", ["join-sub-2"], "join-sub-2"),
      question("sources/disc/room", ["convert-to-aes3", "leave-out"]),
    ]);
    expect(text).toContain("Besides the cables");
    for (const words of [
      "Place of outputs/left-hf/polarity",
      "Mark the cable.",
      "What limiter-elsewhere comes to.",
      "Words of join-sub-2.",
      "Words of convert-to-aes3.",
    ]) {
      expect(text.replace(/\s+/gu, " ")).toContain(words);
    }
  });

  it("says nothing of what is done in the settings alone", () => {
    const text = sheet([
      question("outputs/left-hf/polarity", ["in-the-cable", "not-inverted"], "not-inverted"),
      question("labels/outputs", ["as-proposed"], "as-proposed"),
    ]);
    expect(text).not.toContain("Besides the cables");
  });
});
