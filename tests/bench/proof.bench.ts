import { Bench } from "tinybench";
import type { Configuration } from "../../src/model/index.ts";
import { changed, large, proveSamples, readSample } from "../proof/samples.ts";

/** As many presets again as asked for, every ten of them with an EQ set of their own that a little sets apart. */
function withMorePresets(configuration: Configuration, times: number): Configuration {
  return changed(configuration, (draft) => {
    const presets = structuredClone(draft.presets);
    const [first] = structuredClone(draft.equalizations);
    for (let copy = 1; copy < times; copy++) {
      const set = { ...structuredClone(first!), id: `copy-${copy}` };
      for (const { graphic } of set.channels) if (graphic) graphic.gainsDb[copy % 27]! += 0.5;
      draft.equalizations.push(set);
      for (const preset of presets) {
        draft.presets.push({
          ...structuredClone(preset),
          id: `${preset.id}-${copy}`,
          equalizationId: copy % 10 === 0 ? preset.equalizationId : set.id,
        });
      }
    }
  });
}

const asFound = readSample<Configuration>("visits", "lantern-mill", "screen-1-autumn.json");

const atDoubleRate = changed(large, ({ unit }) => {
  unit.sampleRateHz = 96_000;
});

export async function run(): Promise<unknown> {
  const many = withMorePresets(large, 20);
  const pairs: Readonly<Record<string, readonly [Configuration, Configuration]>> = {
    "large sample against itself": [large, large],
    "large sample, as left and as found": [large, asFound],
    "large sample at 48 and 96 kHz": [large, atDoubleRate],
    "large sample with 20 times as many presets, at 48 and 96 kHz": [many, withMorePresets(atDoubleRate, 20)],
  };
  const firstMs = milliseconds(() => proveSamples(large, asFound));
  const bench = new Bench({ time: 3000, warmupTime: 1000 });
  for (const [name, [before, after]] of Object.entries(pairs))
    bench.add(name, () => proveSamples(before, after));
  await bench.run();
  return {
    firstCallMs: round(firstMs),
    warm: bench.tasks.map((task) => {
      if (!("latency" in task.result)) throw new Error(`${task.name}: ${task.result.state}`);
      const [before, after] = pairs[task.name]!;
      const proof = proveSamples(before, after);
      return {
        name: task.name,
        paths: proof.counts.paths,
        frequencies: proof.method.frequencies,
        groups: proof.groups.length,
        jsonBytes: JSON.stringify(proof).length,
        medianMs: round(task.result.latency.p50),
        slowestOfHundredMs: round(task.result.latency.p99),
      };
    }),
  };
}

function milliseconds(task: () => unknown): number {
  const start = performance.now();
  task();
  return performance.now() - start;
}

function round(value: number): number {
  return Number(value.toPrecision(4));
}
