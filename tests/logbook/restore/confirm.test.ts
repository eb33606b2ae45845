import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { confirmReadBack } from "../../../src/logbook/restore/index.ts";
import { isWithinStep } from "../../../src/logbook/restore/within-step.ts";
import { validateConfirmation } from "../../../src/model/generated/validators.js";
import type { Configuration, NumberGrid } from "../../../src/model/index.ts";
import { gridValue, limitedNumbers } from "../../../src/profile/index.ts";
import { runs } from "../../runs.ts";
import { asLeft, changed, profile } from "./documents.ts";

const confirm = (readBack: Configuration, intended = asLeft) =>
  confirmReadBack(intended, readBack, { profile });

function output<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  return list.find((item) => item.id === id)!;
}

describe("a read-back", () => {
  it("that is the same is equal, and says how much was compared", () => {
    const confirmation = confirm(structuredClone(asLeft));
    expect(confirmation).toMatchObject({
      verdict: "equal",
      differences: [],
      counts: { differing: 0, withinSteps: 0 },
    });
    expect(confirmation.counts.compared).toBeGreaterThan(2000);
    expect(confirmation.intended.sha256).toBe(confirmation.readBack.sha256);
    validateConfirmation(confirmation);
    expect(validateConfirmation.errors).toBeNull();
  });

  it("in another order, with other ids of outputs, is equal too", () => {
    const readBack = changed(asLeft, (draft) => {
      draft.outputs.reverse();
      draft.presets.reverse();
    });
    expect(confirm(readBack).verdict).toBe("equal");
  });

  it("that says of every filter that it is in use is equal", () => {
    const readBack = changed(asLeft, ({ outputs }) => {
      for (const { filters } of outputs) for (const filter of filters) filter.enabled = true;
    });
    expect(confirm(readBack).verdict).toBe("equal");
  });

  it("without what no unit holds is equal, and says so", () => {
    const readBack = changed(asLeft, (draft) => {
      delete draft.calibration;
      delete draft.screen.geometry;
      delete draft.notes;
      draft.loudspeakers = draft.loudspeakers.slice(0, 1);
    });
    const { verdict, counts, differences } = confirm(readBack);
    expect(verdict).toBe("equal");
    expect(counts.notHeld).toBe(differences.length);
    expect(counts.notHeld).toBeGreaterThan(1);
  });

  it("with numbers that the unit rounded counts as equal, each with its values", () => {
    const intended = changed(asLeft, ({ outputs }) => {
      outputs[0]!.gainDb = -9.27;
      outputs[0]!.delayMs = 0.6234;
    });
    const readBack = changed(intended, ({ outputs }) => {
      outputs[0]!.gainDb = -9.3;
      outputs[0]!.delayMs = 0.62;
    });
    const confirmation = confirm(readBack, intended);
    expect(confirmation.verdict).toBe("within-steps");
    expect(confirmation.differences).toMatchObject([
      { outcome: "within-step", label: "output gain", unit: "dB", intended: -9.27, readBack: -9.3 },
      { outcome: "within-step", label: "output delay", unit: "ms", intended: 0.6234, readBack: 0.62 },
    ]);
    validateConfirmation(confirmation);
    expect(validateConfirmation.errors).toBeNull();
  });

  it.each([
    [
      "a gain a step off",
      (draft: Draft) => {
        output(draft.outputs, "center-hf").gainDb += 0.1;
      },
      { kind: "sound", label: "output gain", place: /hf way/ },
    ],
    [
      "a crossover elsewhere",
      (draft: Draft) => {
        output(draft.outputs, "center-hf").highPass!.frequencyHz = 800;
      },
      { kind: "protection", label: "high-pass corner", readBack: 800 },
    ],
    [
      "a limiter that is gone",
      (draft: Draft) => {
        delete output(draft.outputs, "center-hf").limiter;
      },
      { kind: "protection", intended: "there", readBack: null, place: /hf way/ },
    ],
    [
      "polarity",
      (draft: Draft) => {
        output(draft.outputs, "center-hf").polarity = "inverted";
      },
      { kind: "sound", intended: "normal", readBack: "inverted" },
    ],
    [
      "a slider a step off",
      (draft: Draft) => {
        draft.equalizations[0]!.channels[0]!.graphic!.gainsDb[3]! += 0.5;
      },
      { kind: "sound", label: "graphic EQ gain" },
    ],
    [
      "a preset that is gone",
      (draft: Draft) => {
        draft.presets.pop();
      },
      { intended: "there", readBack: null },
    ],
    [
      "the emergency mute off",
      (draft: Draft) => {
        draft.operation.emergencyMute!.enabled = false;
      },
      { kind: "protection", intended: true, readBack: false },
    ],
    [
      "another connector",
      (draft: Draft) => {
        output(draft.outputs, "center-hf").connectorId = "out-28";
      },
      { kind: "routing", readBack: "out-28" },
    ],
    [
      "another unit than the one that was loaded",
      (draft: Draft) => {
        draft.unit.serial = "S-OTHER";
      },
      { label: "serial number", readBack: "S-OTHER" },
    ],
  ] as const)("tells %s", (_name, fault, { place, ...expected }: Expected) => {
    const confirmation = confirm(changed(asLeft, fault));
    expect(confirmation.verdict).toBe("differs");
    expect(confirmation.counts.differing).toBe(1);
    expect(confirmation.differences[0]).toMatchObject({ outcome: "differs", ...expected });
    if (place !== undefined) expect(confirmation.differences[0]!.place).toMatch(place);
    validateConfirmation(confirmation);
    expect(validateConfirmation.errors).toBeNull();
  });

  it("tells what protects before what sounds", () => {
    const readBack = changed(asLeft, ({ outputs }) => {
      outputs[0]!.gainDb += 2;
      output(outputs, "right-hf").limiter!.thresholdDbfs += 2;
    });
    expect(confirm(readBack).differences.map(({ kind }) => kind)).toEqual(["protection", "sound"]);
  });

  it("of any limited number that lies a whole step or more off differs; less is equal", () => {
    const numbers = limitedNumbers(asLeft, profile);
    fc.assert(
      fc.property(fc.nat(numbers.length - 1), fc.boolean(), (at, up) => {
        const { path, value, grid } = numbers[at]!;
        const neighbours = [-1, 1]
          .map((by) => neighbour(grid, value, by))
          .filter((other) => other !== undefined);
        const other = neighbours[up ? neighbours.length - 1 : 0]!;
        expect(confirm(withNumber(asLeft, path, other)).counts.differing).toBe(1);
        const nearly = value + 0.3 * (other - value);
        expect(confirm(withNumber(asLeft, path, nearly))).toMatchObject({
          verdict: "within-steps",
          counts: { differing: 0, withinSteps: 1 },
        });
      }),
      { numRuns: runs(40) },
    );
  });
});

type Draft = Parameters<Parameters<typeof changed<Configuration>>[1]>[0];

interface Expected {
  readonly kind?: string;
  readonly label?: string;
  readonly intended?: unknown;
  readonly readBack?: unknown;
  readonly place?: RegExp;
}

function neighbour(grid: NumberGrid, value: number, by: number): number | undefined {
  for (let index = 0; ; index++) {
    const here = gridValue(grid, index);
    if (Math.abs(here - value) < 1e-9 * Math.max(1, Math.abs(value))) {
      const other = gridValue(grid, index + by);
      return index + by < 0 || other === here ? undefined : other;
    }
    if (here === gridValue(grid, index + 1)) return undefined;
  }
}

function withNumber(
  configuration: Configuration,
  path: readonly (string | number)[],
  value: number,
): Configuration {
  return changed(configuration, (draft) => {
    let at = draft as unknown as Record<string | number, unknown>;
    for (const part of path.slice(0, -1)) at = at[part] as typeof at;
    at[path.at(-1)!] = value;
  });
}

describe("the steps of a unit", () => {
  const step: NumberGrid = { kind: "step", min: -10, max: 10, step: 0.5 };
  const list: NumberGrid = { kind: "list", values: [1, 2, 10] };
  const log: NumberGrid = { kind: "log", min: 20, max: 20_000, referenceHz: 1000, perOctave: 12 };

  it.each([
    [step, 3, 3, true],
    [step, 3, 3.2, true],
    [step, 3, 3.5, false],
    [step, 3.2, 3, true],
    [step, 3.2, 3.5, true],
    [step, 3.2, 4, false],
    [step, 3.2, 2.5, false],
    [step, 12, 10, false],
    [step, 10, 10.2, true],
    [step, 10, 11, false],
    [list, 2, 1, false],
    [list, 2, 5, true],
    [list, 2, 7, false],
    [list, 4, 2, true],
    [list, 4, 10, true],
    [log, 1000, 1000 * 2 ** (1 / 12), false],
    [log, 1000, 1010, true],
    [log, 1040, 1000, true],
  ] as const)("%j: %d to be loaded, %d read back: within a step %s", (grid, intended, readBack, expected) => {
    expect(isWithinStep(grid, intended, readBack)).toBe(expected);
  });
});
