import { describe, expect, it } from "vitest";
import { readDocument } from "../../src/model/index.ts";
import {
  checkConfiguration,
  type Edit,
  edited,
  type RuleSetting,
  type RuleSettings,
  validateConfiguration,
} from "../../src/rules/index.ts";
import { screen, unit } from "./rule-book-screen.ts";

const reason = "Measured on 2026-03-11; agreed with the exhibitor.";

function settingsOf(...settings: readonly RuleSetting[]): RuleSettings {
  const document = { kind: "boothkeep.rule-settings", schemaVersion: "1.0.0", settings };
  return readDocument(JSON.stringify(document), { expect: "boothkeep.rule-settings" }).document;
}

const set = (at: string, value: unknown): Edit => ({ kind: "set", at, value });
const quiet = edited(screen, [set("/calibration/channels/C/levelDbC", 88)]);
const unsafe = edited(screen, [
  set("/outputs/center-lf/lowPass/frequencyHz", 250),
  set("/outputs/center-mf/highPass/frequencyHz", 250),
]);
const check = (document: typeof screen, settings: RuleSettings) =>
  checkConfiguration(document, { profile: unit, settings });

describe("rule settings", () => {
  it("switch a rule off for one screen, and say why", () => {
    const off = { id: "s1", kind: "off", code: "calibration/level-off-reference", reason } as const;
    expect(check(quiet, settingsOf(off))).toMatchObject({
      findings: [],
      notes: [
        { kind: "off", words: `calibration/level-off-reference is switched off (1 not shown): ${reason}` },
      ],
    });
    const elsewhere = settingsOf(
      { ...off, siteId: "other-house" },
      { ...off, id: "s2", screenId: "screen-9" },
    );
    expect(check(quiet, elsewhere).findings).toHaveLength(1);
    expect(check(quiet, elsewhere).notes).toEqual([]);
    expect(
      check(quiet, settingsOf({ ...off, siteId: "model-house", screenId: "screen-1" })).findings,
    ).toEqual([]);
  });

  it("hold for a place and what lies below it, by ids", () => {
    const off = { id: "s1", kind: "off", code: "calibration/level-off-reference", reason } as const;
    expect(check(quiet, settingsOf({ ...off, place: "/calibration/channels/C" })).findings).toEqual([]);
    expect(check(quiet, settingsOf({ ...off, place: "/calibration/channels/L" })).findings).toHaveLength(1);
  });

  it("change a limit", () => {
    const limit = {
      id: "s1",
      kind: "limit",
      code: "calibration/level-off-reference",
      limit: "maxDb",
      value: 4,
      reason,
    } as const;
    const { findings, notes } = check(quiet, settingsOf(limit));
    expect(findings).toEqual([]);
    expect(notes[0]!.words).toBe(`calibration/level-off-reference: maxDb is 4 in place of 1 dB: ${reason}`);
    expect(check(quiet, settingsOf({ ...limit, value: 2 })).findings).toHaveLength(1);
    expect(check(quiet, settingsOf({ ...limit, limit: "maxHz" })).notes[0]!.kind).toBe("unknown");
  });

  it("never silence a rule about protection, which can be acknowledged", () => {
    const code = "crossover/high-pass-below-safe";
    const off = check(unsafe, settingsOf({ id: "s1", kind: "off", code, reason }));
    expect(off.findings.map((finding) => finding.code)).toEqual([code]);
    expect(off.notes[0]!.kind).toBe("refused");
    const settings = settingsOf({ id: "s1", kind: "acknowledge", code, by: "Chief engineer", reason });
    const { findings, acknowledged } = check(unsafe, settings);
    expect(findings).toEqual([]);
    expect(acknowledged).toHaveLength(1);
    expect(acknowledged[0]!.finding.words).toContain(`Acknowledged by Chief engineer: ${reason}`);
    // Whoever asks for the findings alone gets it all the same.
    expect(validateConfiguration(unsafe, { profile: unit, settings }).map((finding) => finding.code)).toEqual(
      [code],
    );
  });

  it("say when they name no rule, or find nothing", () => {
    const { notes } = check(
      screen,
      settingsOf(
        { id: "s1", kind: "off", code: "level/eq-bost", reason },
        { id: "s2", kind: "off", code: "level/eq-boost", reason },
      ),
    );
    expect(notes.map(({ kind }) => kind)).toEqual(["unknown", "unused"]);
    expect(notes[0]!.words).toContain("Did you mean level/eq-boost?");
  });

  it("need a reason", () => {
    const setting = { id: "s1", kind: "off", code: "level/eq-boost", reason: "" };
    expect(() => settingsOf(setting as RuleSetting)).toThrow(/reason/);
  });
});
