import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type EqFits, planMigration } from "../../../src/migrate/plan/index.ts";
import {
  type Configuration,
  type DelayAbility,
  leavesOf,
  type NumberGrid,
  type UnitProfile,
} from "../../../src/model/index.ts";
import { runs } from "../../runs.ts";
import { configurations, oldProfiles } from "./arbitraries.ts";

const RUNS = runs(14, 60);

/** Both units have the same equalizers here: filters go over as they are. */
const COPIES: EqFits = {
  fit: ({ source: { graphic, filters } }) => ({
    ...(graphic === undefined ? {} : { graphic }),
    filters,
    method: "copied",
    rmsDb: 0,
    maxDb: 0,
    maxAtHz: 0,
  }),
};

function finer(grid: NumberGrid): NumberGrid {
  switch (grid.kind) {
    case "step":
      return { ...grid, min: grid.min - 10 * grid.step, max: grid.max + 10 * grid.step, step: grid.step / 4 };
    case "list":
      return {
        kind: "list",
        values: [-70, ...grid.values, ...grid.values.map((value) => value + 0.25)].sort((a, b) => a - b),
      };
    case "log":
      return { ...grid, perOctave: grid.perOctave * 2 };
  }
}

/** Delays start at 0 on every unit; samples come in whole numbers. */
function finerDelay({ unit, grid }: DelayAbility): DelayAbility {
  if (unit === "samples") return { unit, grid };
  return { unit, grid: grid.kind === "step" ? { ...grid, max: grid.max * 2, step: grid.step / 4 } : grid };
}

/** A unit that can do all that the other one can, and more finely. */
function moreAble(unit: UnitProfile): UnitProfile {
  const { channels, presets, outputs, sources } = unit;
  return {
    ...unit,
    id: "able",
    latency: unit.latency,
    labels: { maxLength: 64, characters: [" -\u{10fffd}"] },
    sources: { ...sources, max: 9, gainDb: finer(sources.gainDb) },
    channels: { ...channels, levelDb: finer(channels.levelDb), delay: finerDelay(channels.delay) },
    presets: {
      ...presets,
      max: 20,
      levelDb: finer(presets.levelDb),
      delay: finerDelay(presets.delay),
      routingGainDb: finer(presets.routingGainDb),
    },
    outputs: {
      ...outputs,
      gainDb: finer(outputs.gainDb),
      mixGainDb: finer(outputs.mixGainDb),
      delay: finerDelay(outputs.delay),
    },
  };
}

/** The configuration as the unit can hold it: whatever it cannot is settled or left out. */
function settledOn(old: Configuration, unit: UnitProfile): Configuration {
  return planMigration(old, { from: unit, to: unit, eqFits: COPIES }).configuration;
}

describe("there and back", () => {
  it("onto a more able unit and back gives the same configuration", () => {
    fc.assert(
      fc.property(configurations, oldProfiles, (old, unit) => {
        const settled = settledOn(old, unit);
        const able = moreAble(unit);
        const there = planMigration(settled, { from: unit, to: able, eqFits: COPIES });
        const { lost, ...counts } = there.counts;
        expect(counts.asks + lost).toBe(2); // serial number and firmware of another unit
        const back = planMigration(there.configuration, { from: able, to: unit, eqFits: COPIES });
        const expected = leavesOf({ ...settled, unit: null });
        const actual = leavesOf({ ...back.configuration, unit: null });
        expect([...actual.keys()].sort()).toEqual([...expected.keys()].sort());
        const different = [...expected].filter(([address, value]) => actual.get(address) !== value);
        expect(different).toEqual([]);
      }),
      { numRuns: RUNS },
    );
  });

  it("onto the same unit keeps whatever is valid there, and moves no cable", () => {
    fc.assert(
      fc.property(configurations, oldProfiles, (old, unit) => {
        const settled = settledOn(old, unit);
        const plan = planMigration(settled, { from: unit, to: unit, eqFits: COPIES });
        expect(plan.cables.filter(({ moved }) => moved)).toEqual([]);
        expect(plan.questions).toEqual([]);
        expect(plan.configuration).toEqual(settled);
        expect(plan.counts.kept).toBe(plan.values);
      }),
      { numRuns: RUNS },
    );
  });
});
