import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { compareConfigurations } from "../../../src/diff/compare/index.ts";
import type { ChangeEffect, EqBand } from "../../../src/model/index.ts";
import { hasSciPy, runSciPy } from "../../acoustics/scipy.ts";
import { asLeft, small } from "../changes/samples.ts";
import { edited, item } from "./edited.ts";

/** Sources are named in the files: IEC 61672-1 (weighting), W3C Audio EQ Cookbook, ISO 9613-1, all computed by SciPy. */
function reference(name: string): { readonly cases: readonly Case[] } {
  return JSON.parse(readFileSync(join(import.meta.dirname, "..", "..", "reference", `${name}.json`), "utf8"));
}

interface Case {
  readonly id: string;
  readonly kind: string;
  readonly sampleRateHz: number;
  readonly filters: readonly {
    readonly kind: string;
    readonly type?: string;
    readonly f0: number;
    readonly q?: number;
    readonly slope?: number;
    readonly gainDb: number;
    readonly gainsDb?: readonly number[];
  }[];
  readonly gainDb: number;
  readonly changeOfCWeightedLevelDb: number;
}

const KINDS: Readonly<Record<string, string>> = {
  lowShelf: "low-shelf",
  highShelf: "high-shelf",
  allPass: "all-pass",
};

const cases = reference("weighting").cases.filter(
  ({ kind, filters, gainDb }) =>
    kind === "levelChange" &&
    gainDb === 0 &&
    filters.every((filter) => filter.kind === "biquad" || filter.kind === "graphic"),
);

function bandOf({ type, f0, q, slope, gainDb }: Case["filters"][number], index: number): EqBand {
  const kind = KINDS[type!] ?? type!;
  const width = q === undefined ? { slope } : { q };
  const rest = kind === "all-pass" ? { order: 2, q } : { gainDb, ...width };
  return { id: `reference-${index}`, kind, frequencyHz: f0, ...rest } as EqBand;
}

/** A screen whose center has no equalizer in its first EQ set, and the same with the filters of a case. */
function withFilters({ sampleRateHz, filters }: Case) {
  const flat = edited((draft) => {
    draft.unit.sampleRateHz = sampleRateHz;
    const center = item(draft.equalizations[0].channels, "C");
    center.graphic.gainsDb = center.graphic.gainsDb.map(() => 0);
    delete center.parametric;
  });
  const filtered = edited((draft) => {
    const center = item(draft.equalizations[0].channels, "C");
    const graphic = filters.find(({ gainsDb }) => gainsDb !== undefined);
    if (graphic !== undefined) center.graphic.gainsDb = graphic.gainsDb;
    const bands = filters.filter(({ kind }) => kind === "biquad");
    if (bands.length > 0) center.parametric = bands.map(bandOf);
  }, flat);
  return { flat, filtered };
}

function responseEffect(effects: readonly ChangeEffect[]) {
  return effects.find((effect) => effect.kind === "response");
}

describe("computed effects against published values", () => {
  it("has cases", () => {
    expect(cases.length).toBeGreaterThan(4);
  });

  it.each(cases)("C-weighted level change of $id", (one) => {
    const { flat, filtered } = withFilters(one);
    const { findings, counts } = compareConfigurations(flat, filtered);
    if (one.filters.every(({ type }) => type === "allPass")) {
      // It turns the phase by 180 degrees at its frequency and leaves every level alone (Audio EQ Cookbook).
      const effect = responseEffect(findings[0]!.effects)!;
      expect([effect.maxDb, effect.levelDbC]).toEqual([0, 0]);
      expect(effect.phaseDeg).toBeGreaterThan(175);
      expect(effect.phaseAtHz).toBeCloseTo(one.filters[0]!.f0!, -2);
      return;
    }
    if (one.filters.every(({ gainDb }) => gainDb === 0)) {
      expect([findings, counts.belowTolerance]).toEqual([[], 1]);
      return;
    }
    expect(responseEffect(findings[0]!.effects)?.levelDbC).toBeCloseTo(one.changeOfCWeightedLevelDb, 2);
  });

  it("a peaking filter reaches its gain at its center (Audio EQ Cookbook)", () => {
    const { flat, filtered } = withFilters({
      ...cases[0]!,
      sampleRateHz: 48_000,
      filters: [{ kind: "biquad", type: "peaking", f0: 1000, q: 2, gainDb: -7 }],
    });
    const effect = responseEffect(compareConfigurations(flat, filtered).findings[0]!.effects)!;
    expect(effect.maxDb).toBeCloseTo(-7, 2);
    expect(effect.atHz).toBeCloseTo(1000, 0);
  });

  it("a delay as distance: 343.2 m/s at 20 °C (ISO 9613-1)", () => {
    const at20 = edited((draft) => {
      draft.screen.temperatureC = 20;
    });
    const later = edited((draft) => {
      item(draft.channels, "Ls" in draft ? "Ls" : "Lss").delayMs += 10;
    }, at20);
    const [effect] = compareConfigurations(at20, later).findings[0]!.effects;
    expect(effect).toMatchObject({ kind: "delay", delayMs: 10, distanceM: 3.432 });
  });

  it("a Linkwitz-Riley crossover is flat and in phase when both halves move together (S. Linkwitz, 1976)", () => {
    const two = edited((draft) => {
      for (const [id, side] of [
        ["left-mf", "lowPass"],
        ["left-hf", "highPass"],
      ]) {
        item(draft.outputs, id!)[side!] = { family: "linkwitz-riley", order: 4, frequencyHz: 1600 };
      }
      delete item(draft.outputs, "left-mf").highPass;
      draft.outputs = draft.outputs.filter(({ id }: { id: string }) => id !== "left-lf");
    }, asLeft);
    const halfMoved = edited((draft) => {
      item(draft.outputs, "left-hf").highPass.frequencyHz = 1000;
    }, two);
    const effects = compareConfigurations(two, halfMoved).findings[0]!.effects;
    const crossing = effects.find((effect) => effect.kind === "crossing")!;
    expect(crossing).toMatchObject({ phaseBeforeDeg: 0, rippleBeforeDb: 0 });
    expect(crossing.fromHz).toBeCloseTo(1600, 0);
    // Two Butterworth sections of second order: each low-pass lags by the angle of 1 - x² + j√2·x, a high-pass leads.
    const lagDeg = (x: number) => (2 * 180 * Math.atan2(Math.SQRT2 * x, 1 - x * x)) / Math.PI;
    const analogDeg = lagDeg(crossing.toHz / 1000) - lagDeg(crossing.toHz / 1600);
    expect(Math.abs(crossing.phaseAfterDeg - analogDeg)).toBeLessThan(2);
  });

  it.runIf(hasSciPy())("largest and rms difference of an equalizer against SciPy", () => {
    const gains = small.equalizations[0]!.channels[0]!.graphic!.gainsDb;
    const after = edited((draft) => {
      const { graphic } = draft.equalizations[0].channels[0];
      graphic.gainsDb = graphic.gainsDb.map((gain: number, index: number) => gain + Math.sin(index) * 2);
    }, small);
    const program = `
f = 1000 * 10 ** (0.3 * np.arange(data["first"], data["last"] + 1) / 24)
def bank(gains):
    total = np.zeros_like(f)
    for k, g in enumerate(gains):
        A = 10 ** (g / 40); w0 = 2 * np.pi * 1000 * 10 ** ((k - 14) / 10) / 48000
        alpha = np.sin(w0) / (2 * data["q"])
        b = [1 + alpha * A, -2 * np.cos(w0), 1 - alpha * A]; a = [1 + alpha / A, -2 * np.cos(w0), 1 - alpha / A]
        total += 20 * np.log10(abs(signal.freqz(b, a, worN=f, fs=48000)[1]))
    return total
d = bank(data["after"]) - bank(data["before"])
k = int(np.argmax(abs(d)))
print(json.dumps({"maxDb": d[k], "atHz": f[k], "rmsDb": float(np.sqrt(np.mean(d ** 2)))}))
`;
    const q = 1 / (2 * Math.sinh((Math.LN2 / 2) * (1 / 3)));
    const expected = runSciPy<{ maxDb: number; atHz: number; rmsDb: number }>(program, {
      first: Math.round((24 * Math.log10(20 / 1000)) / 0.3),
      last: Math.round((24 * Math.log10(20_000 / 1000)) / 0.3),
      before: gains,
      after: after.equalizations[0]!.channels[0]!.graphic!.gainsDb,
      q,
    })!;
    const effect = responseEffect(compareConfigurations(small, after).findings[0]!.effects)!;
    expect(effect.maxDb).toBeCloseTo(expected.maxDb, 2);
    expect(effect.atHz).toBeCloseTo(expected.atHz, 1);
    expect(effect.rmsDb).toBeCloseTo(expected.rmsDb, 1);
  });
});
