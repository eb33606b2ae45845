import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { Bench } from "tinybench";
import {
  acousticResponses,
  cascadeResponse,
  comparablePath,
  compareResponses,
  crossoverSections,
  digitalCoefficients,
  filterSections,
  firResponse,
  frequencyAxis,
  frequencyGrid,
  loudspeakerSums,
  outputHeadrooms,
  pathMagnitudeDb,
  pathResponse,
  type Section,
} from "../../src/acoustics/index.ts";
import type { Configuration } from "../../src/model/index.ts";
import { runSciPy } from "../acoustics/scipy.ts";

const SAMPLE_RATE_HZ = 48_000;

/** Forty sections of all sorts: an equalizer, a crossover, driver EQ. */
function someSections(): readonly Section[] {
  const bands = Array.from({ length: 35 }, (_, k) => ({
    kind: "peaking" as const,
    frequencyHz: 25 * 1.2 ** k,
    gainDb: 6 * Math.sin(k),
    q: 4.318,
  }));
  return [
    ...bands.flatMap((band) => filterSections(band, SAMPLE_RATE_HZ)),
    ...crossoverSections(
      { family: "linkwitz-riley", order: 8, frequencyHz: 900 },
      "high-pass",
      SAMPLE_RATE_HZ,
    ),
    ...filterSections({ kind: "high-shelf", frequencyHz: 8000, gainDb: 5, slope: 1 }, SAMPLE_RATE_HZ),
  ];
}

/** The sample with the most paths. */
function largestSample(): { readonly name: string; readonly configuration: Configuration } {
  const folder = join(import.meta.dirname, "../../samples/screens");
  const samples = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".json"))
    .map((name) => ({
      name,
      configuration: JSON.parse(readFileSync(join(folder, name), "utf8")) as Configuration,
    }));
  const paths = (sample: (typeof samples)[number]) => acousticResponses(sample.configuration).paths.length;
  return samples.reduce((best, sample) => (paths(sample) > paths(best) ? sample : best));
}

/** Milliseconds of one call of each task: median of many after warm-up. */
async function timeMs(tasks: Readonly<Record<string, () => unknown>>): Promise<Record<string, number>> {
  const bench = new Bench({ time: 1500, warmupTime: 500 });
  let kept: unknown;
  for (const [name, task] of Object.entries(tasks)) {
    bench.add(name, () => {
      kept = task();
    });
  }
  await bench.run();
  if (kept === undefined) throw new Error("no task gave a result");
  return Object.fromEntries(
    bench.tasks.map((task) => {
      if (!("latency" in task.result)) throw new Error(`${task.name}: ${task.result.state}`);
      return [task.name, round(task.result.latency.p50)];
    }),
  );
}

/** Nanoseconds a section and point, for the same sections in SciPy. */
function sciPyNanoseconds(sections: readonly Section[], grids: Readonly<Record<string, Float64Array>>) {
  const { OPENBLAS_CORETYPE: _core, OPENBLAS_L2_SIZE: _cache, ...env } = process.env;
  const program = `
import scipy, timeit
sos = np.array(data["sos"])
ns = {}
for name, grid in data["grids"].items():
    w = np.array(grid)
    runs = timeit.repeat(lambda: freqz_sos(sos, worN=w, fs=data["fs"]), number=1, repeat=max(7, int(2e5 // len(w))))
    ns[name] = float(np.median(runs)) * 1e9 / len(sos) / len(w)
print(json.dumps({"scipy": scipy.__version__, "numpy": np.__version__, "ns": ns}))`;
  return runSciPy<{ scipy: string; numpy: string; ns: Record<string, number> }>(
    program,
    {
      sos: sections.map((section) => {
        const { b, a } = digitalCoefficients(section);
        return [...b, ...a];
      }),
      fs: SAMPLE_RATE_HZ,
      grids: Object.fromEntries(Object.entries(grids).map(([name, grid]) => [name, [...grid]])),
    },
    env,
  );
}

/** Bytes by which heap and array buffers grow over many calls, once warm. */
function bytesKept(task: () => unknown, calls: number): number {
  setFlagsFromString("--expose_gc");
  const collect = runInNewContext("gc") as () => void;
  const usedAfterCalls = () => {
    for (let call = 0; call < calls; call++) task();
    collect();
    collect();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };
  usedAfterCalls();
  const before = usedAfterCalls();
  return usedAfterCalls() - before;
}

function round(value: number): number {
  return Number(value.toPrecision(4));
}

export async function run(): Promise<unknown> {
  const sections = someSections();
  const grids = {
    "24 points an octave": frequencyGrid(),
    "1000 points an octave": frequencyGrid({ pointsPerOctave: 1000 }),
  };
  const axes = Object.entries(grids).map(([name, grid]) => ({
    name,
    axis: frequencyAxis(SAMPLE_RATE_HZ, grid),
  }));
  const { name: sampleName, configuration } = largestSample();
  const responses = acousticResponses(configuration);
  const { paths, axis } = responses;
  const taps = Array.from({ length: 4096 }, (_, n) => Math.exp(-n / 500) * Math.cos(n));
  const withFir = {
    ...configuration,
    outputs: configuration.outputs.map((output) => ({ ...output, fir: { taps } })),
  };

  const cascades = await timeMs(
    Object.fromEntries(axes.map(({ name, axis }) => [name, () => cascadeResponse(sections, axis)])),
  );
  const nanoseconds = Object.fromEntries(
    axes.map(({ name, axis }) => [
      name,
      (cascades[name]! * 1e6) / sections.length / axis.frequenciesHz.length,
    ]),
  );
  const sciPy = sciPyNanoseconds(sections, grids);

  const wholeMs = await timeMs({
    "shared responses and list of paths": () => acousticResponses(configuration),
    "the same and the level of every path": () => acousticResponses(configuration).paths.map(pathMagnitudeDb),
    "the same and the complex response of every path": () => {
      const all = acousticResponses(configuration);
      return all.paths.map((path) => [pathMagnitudeDb(path), pathResponse(path, all.axis)]);
    },
    "every path compared with itself": () =>
      paths.map((path) => compareResponses(comparablePath(path, axis), comparablePath(path, axis))),
    "every loudspeaker summed": () => loudspeakerSums(responses),
    "headroom of every output in every preset": () => outputHeadrooms(responses),
    "shared responses with 4096 FIR taps in every output": () => acousticResponses(withFir),
    "one FIR of 4096 taps": () => firResponse({ taps }, axis),
  });

  return {
    sections: sections.length,
    nanosecondsPerSectionAndPoint: rounded(nanoseconds),
    millionSectionPointsPerSecond: rounded(mapped(nanoseconds, (ns) => 1000 / ns)),
    sciPy: sciPy && {
      scipy: sciPy.scipy,
      numpy: sciPy.numpy,
      nanosecondsPerSectionAndPoint: rounded(sciPy.ns),
      timesFasterThanSciPy: rounded(mapped(nanoseconds, (ns, name) => sciPy.ns[name]! / ns)),
    },
    sample: {
      name: sampleName.replaceAll("\\", "/"),
      presets: configuration.presets.length,
      sources: configuration.sources.length,
      sourceChannels: configuration.sources.flatMap(({ channels }) => channels).length,
      outputs: configuration.outputs.length,
      paths: paths.length,
      frequencies: axis.frequenciesHz.length,
    },
    millisecondsPerCall: wholeMs,
    bytesMoreAfter300MoreCalls: bytesKept(
      () => acousticResponses(configuration).paths.map(pathMagnitudeDb),
      300,
    ),
  };
}

function mapped(values: Readonly<Record<string, number>>, change: (value: number, name: string) => number) {
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, change(value, name)]));
}

function rounded(values: Readonly<Record<string, number>>) {
  return mapped(values, round);
}
