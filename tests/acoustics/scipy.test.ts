import { beforeAll, describe, expect, it } from "vitest";
import {
  CROSSOVER_FAMILY_NAMES,
  type CrossoverHalf,
  cascadeGroupDelayMs,
  cascadeResponse,
  crossoverOrders,
  crossoverSections,
  FILTER_KIND_NAMES,
  filterSections,
  firResponse,
  frequencyAxis,
  frequencyGrid,
  type ParametricFilter,
} from "../../src/acoustics/index.ts";
import { seededRandom } from "../../src/base/numeric/index.ts";
import { Worst } from "./reference.ts";
import { hasSciPy, runSciPy } from "./scipy.ts";

const random = seededRandom(61_260);
const between = (from: number, to: number) => from * (to / from) ** random();
const pick = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)]!;
const SAMPLE_RATES_HZ = [32_000, 44_100, 48_000, 96_000, 192_000];
const frequenciesHz = frequencyGrid({ pointsPerOctave: 6, belowHz: 16_000 });

interface Response {
  readonly re: number[];
  readonly im: number[];
  readonly groupDelayMs?: number[];
}

/** What SciPy prints is a response; levels and phases for {@link Worst}. */
function expected({ re, im }: Response) {
  return {
    magnitudeDb: re.map((x, k) => 20 * Math.log10(Math.hypot(x, im[k]!))),
    phaseRad: re.map((x, k) => Math.atan2(im[k]!, x)),
  };
}

const crossovers = CROSSOVER_FAMILY_NAMES.flatMap((family) =>
  crossoverOrders(family).flatMap((order) =>
    (["low-pass", "high-pass"] as const).flatMap((side) =>
      (family === "bessel" ? (["phase", "magnitude"] as const) : [undefined]).map((normalization) => {
        const half: CrossoverHalf = { family, order, frequencyHz: between(40, 12_000), normalization };
        return { half, side, sampleRateHz: pick(SAMPLE_RATES_HZ) };
      }),
    ),
  ),
);

const sections = FILTER_KIND_NAMES.flatMap((kind) =>
  Array.from({ length: 12 }, (_, k) => {
    const steepness =
      kind.endsWith("shelf") && k % 2 === 0 ? { slope: between(0.2, 1) } : { q: between(0.2, 20) };
    const settings = {
      kind,
      frequencyHz: between(40, 12_000),
      gainDb: 36 * random() - 18,
      order: 1 + (k % 2),
    };
    return { filter: { ...settings, ...steepness } as ParametricFilter, sampleRateHz: pick(SAMPLE_RATES_HZ) };
  }),
);

const firs = [1, 2, 63, 64, 65, 500, 4096].map((length) => ({
  taps: Array.from({ length }, (_, n) => (2 * random() - 1) * Math.exp(-n / 300)),
  sampleRateHz: 48_000,
}));

/** scipy.signal.butter, bessel and freqz_sos; the Cookbook's prototypes through scipy.signal.bilinear; freqz. */
const PROGRAM = `
f_hz = np.array(data["frequenciesHz"])

def answer(sos, fs):
    w, h = freqz_sos(np.array(sos), worN=f_hz, fs=fs)
    delay = sum(signal.group_delay((s[:3], s[3:]), w=w, fs=fs)[1] for s in np.array(sos)) / fs * 1000
    return {"re": h.real.tolist(), "im": h.imag.tolist(), "groupDelayMs": delay.tolist()}

def crossover(case):
    half, side, fs = case["half"], case["side"].replace("-", ""), case["sampleRateHz"]
    order, fc = half["order"], half["frequencyHz"]
    if half["family"] == "bessel":
        norm = {"phase": "phase", "magnitude": "mag"}[half["normalization"]]
        return answer(signal.bessel(order, fc, side, output="sos", norm=norm, fs=fs), fs)
    if half["family"] == "butterworth":
        return answer(signal.butter(order, fc, side, output="sos", fs=fs), fs)
    return answer(np.vstack([signal.butter(order // 2, fc, side, output="sos", fs=fs)] * 2), fs)

def prototype(f):
    kind, A, q = f["kind"], 10 ** (f["gainDb"] / 40), f.get("q")
    if "slope" in f:
        q = 1 / np.sqrt((A + 1 / A) * (1 / f["slope"] - 1) + 2)
    r = np.sqrt(A) / q
    if kind == "all-pass" and f["order"] == 1:
        return [-1, 1], [1, 1]
    return {
        "peaking": ([1, A / q, 1], [1, 1 / (A * q), 1]),
        "low-shelf": ([A, A * r, A * A], [A, r, 1]),
        "high-shelf": ([A * A, A * r, A], [1, r, A]),
        "low-pass": ([1], [1, 1 / q, 1]),
        "high-pass": ([1, 0, 0], [1, 1 / q, 1]),
        "band-pass": ([1 / q, 0], [1, 1 / q, 1]),
        "notch": ([1, 0, 1], [1, 1 / q, 1]),
        "all-pass": ([1, -1 / q, 1], [1, 1 / q, 1]),
    }[kind]

def section(case):
    f, fs = case["filter"], case["sampleRateHz"]
    b, a = signal.bilinear(*signal.lp2lp(*prototype(f), 2 * fs * np.tan(np.pi * f["frequencyHz"] / fs)), fs)
    return answer([np.concatenate([np.pad(b, (0, 3 - len(b))), np.pad(a, (0, 3 - len(a)))])], fs)

def fir(case):
    _, h = signal.freqz(case["taps"], worN=f_hz, fs=case["sampleRateHz"])
    return {"re": h.real.tolist(), "im": h.imag.tolist()}

print(json.dumps({
    "crossovers": [crossover(c) for c in data["crossovers"]],
    "sections": [section(c) for c in data["sections"]],
    "firs": [fir(c) for c in data["firs"]],
}))`;

describe.skipIf(!hasSciPy())("SciPy, live", () => {
  let scipy: Readonly<Record<"crossovers" | "sections" | "firs", Response[]>>;

  beforeAll(() => {
    scipy = runSciPy(PROGRAM, { crossovers, sections, firs, frequenciesHz: [...frequenciesHz] })!;
  });

  it("has the same crossovers of every family, order and side within 1e-8 dB, and their group delay", () => {
    const worst = new Worst();
    crossovers.forEach(({ half, side, sampleRateHz }, k) => {
      const cascade = crossoverSections(half, side, sampleRateHz);
      const axis = frequencyAxis(sampleRateHz, frequenciesHz);
      worst.see(cascadeResponse(cascade, axis), expected(scipy.crossovers[k]!));
      const delays = cascadeGroupDelayMs(cascade, axis);
      scipy.crossovers[k]!.groupDelayMs!.forEach((delayMs, n) => {
        // Further down SciPy's own polynomials in z⁻¹ cancel out and its delays scatter.
        if (frequenciesHz[n]! < sampleRateHz / 100) return;
        expect(Math.abs(delays[n]! - delayMs)).toBeLessThan(1e-7 * (1 + Math.abs(delayMs)));
      });
    });
    expect(crossovers).toHaveLength(2 * (8 + 2 * 7 + 4));
    expect(worst.magnitudeDb).toBeLessThan(1e-8);
    expect(worst.phaseRad).toBeLessThan(1e-8);
  });

  it("has the same sections by its own bilinear transform of the Cookbook's prototypes within 1e-8 dB", () => {
    const worst = new Worst();
    sections.forEach(({ filter, sampleRateHz }, k) => {
      const axis = frequencyAxis(sampleRateHz, frequenciesHz);
      worst.see(cascadeResponse(filterSections(filter, sampleRateHz), axis), expected(scipy.sections[k]!));
    });
    expect(sections).toHaveLength(12 * 8);
    expect(worst.magnitudeDb).toBeLessThan(1e-8);
    expect(worst.phaseRad).toBeLessThan(1e-8);
  });

  it("has the same response of FIR taps within 1e-12 of their sum", () => {
    firs.forEach(({ taps, sampleRateHz }, k) => {
      const { re, im } = firResponse({ taps }, frequencyAxis(sampleRateHz, frequenciesHz));
      const size = taps.reduce((sum, tap) => sum + Math.abs(tap), 0);
      re.forEach((x, n) => {
        const distance = Math.hypot(x - scipy.firs[k]!.re[n]!, im[n]! - scipy.firs[k]!.im[n]!);
        expect(distance).toBeLessThan(1e-12 * size);
      });
    });
  });
});
