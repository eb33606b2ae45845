import { describe, expect, it } from "vitest";
import {
  crewOfOne,
  type ManySources,
  type MigrationRecords,
  migrateScreens,
  openDecisions,
  type ScreenRecord,
} from "../../../src/jobs/index.ts";
import type { EqFit } from "../../../src/migrate/plan/index.ts";
import type { Configuration, Decisions, UnitProfile } from "../../../src/model/index.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../../migrate/plan/example.ts";

/** Coarser in nothing but the EQ's steps, so that equalizers have to be fitted and yet nothing is heard. */
const TO: UnitProfile = {
  ...OLD_UNIT,
  id: NEW_UNIT.id,
  label: NEW_UNIT.label,
  firmwareRange: NEW_UNIT.firmwareRange,
  equalizations: {
    ...OLD_UNIT.equalizations,
    parametric: {
      ...OLD_UNIT.equalizations.parametric!,
      frequencyHz: { kind: "log", min: 20, max: 20000, referenceHz: 1000, perOctave: 24 },
    },
  },
};

const screenNamed = (screenId: string): Configuration => ({
  ...SCREEN,
  screen: { ...SCREEN.screen, screenId },
});

/** Screens in memory, with records that the next run can go on with. */
function world(documents: Readonly<Record<string, unknown>>, decisions: Decisions | undefined) {
  const records: ScreenRecord[] = [];
  const fits = new Map<string, EqFit>();
  const kept: string[] = [];
  const fitted: string[] = [];
  const sources: ManySources = {
    read: (file) => new TextEncoder().encode(JSON.stringify(documents[file])),
    profileOf: async () => OLD_UNIT,
    answersFor: async () => ({
      answers: { name: undefined, file: decisions && "answers.json" },
      decisions,
    }),
    keep: async ({ name }) => void kept.push(name),
  };
  const recorded = (): MigrationRecords => ({
    records: [...records],
    recordScreen: (record) => void records.push(record),
    fits: new Map(fits),
    recordFit: (key, fit) => {
      fitted.push(key);
      fits.set(key, fit);
    },
  });
  const run = (options: { readonly signal?: AbortSignal; readonly onDone?: (done: number) => void } = {}) => {
    const now = recorded();
    const crew = crewOfOne({ version: "1.0.0", to: TO, records: now.records }, sources);
    const { signal, onDone } = options;
    return migrateScreens(Object.keys(documents), {
      crew,
      records: now,
      ...(signal !== undefined && { signal }),
      onStage: (stage) => ({
        at: (done) => (stage === "settle" ? onDone?.(done) : undefined),
        end: () => {},
      }),
    });
  };
  return { run, kept, fitted, records };
}

describe("migration of many screens", () => {
  const two = { "a.json": screenNamed("a"), "b.json": screenNamed("b") };

  it("keeps each screen once, fits equal equalizers once, and has nothing to do when it is run again", async () => {
    const { run, kept, fitted } = world(two, decisionsWith(ANSWERS.slice(0, 2)));
    const { results } = await run();
    expect(results.map(({ name, state }) => [name, state])).toEqual([
      ["quarry.a", "planned"],
      ["quarry.b", "planned"],
    ]);
    expect(kept).toEqual(["quarry.a", "quarry.b"]);
    expect(fitted.length).toBeGreaterThan(0);
    expect(new Set(fitted).size).toBe(fitted.length);
    const again = await run();
    expect(again.results.map(({ earlier }) => earlier)).toEqual([true, true]);
    expect(kept).toHaveLength(2);
  });

  it("goes on with the others when one cannot be read or is there twice", async () => {
    const documents = { ...two, "broken.json": { kind: "nothing" }, "twin.json": screenNamed("a") };
    const { results } = await world(documents, decisionsWith(ANSWERS.slice(0, 2))).run();
    expect(results.map(({ state }) => state)).toEqual(["planned", "planned", "failed", "failed"]);
    expect(results[3]!.words).toContain("Two files are of the same screen");
  });

  it("plans nothing while something is open, and gives one file to fill in for all", async () => {
    const { run, kept } = world(two, undefined);
    const { results, surveys } = await run();
    expect(results.map(({ state }) => state)).toEqual(["decisions-missing", "decisions-missing"]);
    expect(kept).toEqual([]);
    const [file, ...more] = await openDecisions(surveys, {
      toProfileId: TO.id,
      asRecommended: false,
      read: () => Promise.reject(new Error("there are no answers yet")),
    });
    expect(more).toEqual([]);
    expect(file!.decisions.answers.map(({ optionId }) => optionId)).toContain(null);
  });

  it("says that a screen is outdated whose configuration changed since it was planned", async () => {
    const documents: Record<string, unknown> = { ...two };
    const { run, kept } = world(documents, decisionsWith(ANSWERS.slice(0, 2)));
    await run();
    documents["a.json"] = {
      ...screenNamed("a"),
      channels: SCREEN.channels.map((channel) => ({ ...channel, levelDb: -1 })),
    };
    const { results } = await run();
    expect(results.map(({ state }) => state)).toEqual(["outdated", "planned"]);
    expect(kept).toHaveLength(2);
  });

  it("can be ended: what is recorded stays, and the next run does the rest", async () => {
    const { run, kept, records } = world(two, decisionsWith(ANSWERS.slice(0, 2)));
    const ending = new AbortController();
    const reason = new Error("The last show begins.");
    await expect(run({ signal: ending.signal, onDone: () => ending.abort(reason) })).rejects.toBe(reason);
    expect(records.map(({ name }) => name)).toEqual(["quarry.a"]);
    const { results } = await run();
    expect(results.map(({ earlier }) => earlier === true)).toEqual([true, false]);
    expect(kept).toEqual(["quarry.a", "quarry.b"]);
  });
});
