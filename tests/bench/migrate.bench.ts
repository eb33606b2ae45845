import { readFileSync } from "node:fs";
import { join } from "node:path";
import { canonicalHash } from "../../src/canonical/index.ts";
import {
  decidedLosses,
  type EqFit,
  type EqFits,
  type EqTask,
  eqTasks,
  fitEqualizer,
  planMigration,
  rememberedFits,
} from "../../src/migrate/index.ts";
import type { Configuration, Decisions, UnitProfile } from "../../src/model/index.ts";
import { unitAcoustics } from "../../src/profile/index.ts";
import { prove } from "../../src/proof/index.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");
const sample = <T>(...path: readonly string[]) =>
  JSON.parse(readFileSync(join(samples, ...path), "utf8")) as T;
const profile = (id: string) => sample<UnitProfile>("profiles", `${id}.json`);

const large = sample<Configuration>("screens", "lantern-mill", "screen-1.json");
const from = profile(large.unit.profileId);
const decisions = sample<Decisions>("decisions", "lantern-mill-1-onto-whimbrel-32.json");
const PROFILES = ["gabbro-28", "gabbro-36", "whimbrel-32", "dunlin-16"] as const;
const RUNS = 12;

const NOT_FITTED: EqFits = {
  fit: () => ({ filters: [], method: "refitted", rmsDb: 0, maxDb: 0, maxAtHz: 0 }),
};

export async function run(): Promise<unknown> {
  return {
    planWithoutRefitsAndProof: PROFILES.map(planAndProve),
    refits: (["quick", "thorough"] as const).map(refits),
    fleet: fleet(1000, 20),
  };
}

/** The large sample onto one profile, without fitting equalizers: plan and proof, warm. */
function planAndProve(id: string) {
  const to = profile(id);
  const once = () => {
    const plan = planMigration(large, { from, to, eqFits: NOT_FITTED });
    const { configuration } = plan;
    const proof = prove(large, configuration, {
      beforeUnit: unitAcoustics(from, large.unit.sampleRateHz),
      afterUnit: unitAcoustics(to, configuration.unit.sampleRateHz),
      givenUp: decidedLosses(plan, large),
    });
    return { plan, proof };
  };
  const firstMs = milliseconds(once);
  const times = Array.from({ length: RUNS }, () => milliseconds(once)).sort((a, b) => a - b);
  const { plan } = once();
  return {
    onto: id,
    values: plan.values,
    questions: plan.questions.length,
    cablesMoved: plan.cables.filter(({ moved }) => moved).length,
    firstMs: round(firstMs),
    medianMs: round(times[RUNS / 2]!),
    slowestMs: round(times.at(-1)!),
  };
}

/** Every equalizer of the large sample onto the parametric unit, in one thread. */
function refits(effort: EqTask["effort"]) {
  const to = profile("whimbrel-32");
  const tasks = [...eqTasks(large, { from, to, decisions: { ...decisions, effort } }).values()];
  const fits = tasks.map((task) => {
    let fit: EqFit | undefined;
    const ms = milliseconds(() => {
      fit = fitEqualizer(task);
    });
    return { ms, fit: fit! };
  });
  const times = fits.map(({ ms }) => ms).sort((a, b) => a - b);
  const changed = fits.filter(({ fit }) => fit.method !== "copied").map(({ fit }) => fit.rmsDb);
  return {
    effort,
    equalizers: tasks.length,
    copied: fits.length - changed.length,
    totalMs: round(times.reduce((sum, ms) => sum + ms, 0)),
    medianMs: round(times[Math.floor(times.length / 2)]!),
    slowestMs: round(times.at(-1)!),
    medianRmsDb: round(changed.sort((a, b) => a - b)[Math.floor(changed.length / 2)] ?? 0),
    worstRmsDb: round(changed.at(-1) ?? 0),
  };
}

/** Many screens of a few classes, answered by one decisions file; screens of a class differ in what an engineer tunes. */
function fleet(screens: number, classes: number) {
  const to = profile("whimbrel-32");
  const known = new Map<string, EqFit>();
  const options = { from, to, decisions: { ...decisions, effort: "quick" as const } };
  let asked = 0;
  const eqFits = rememberedFits((task) => {
    asked += 1;
    return fitEqualizer(task);
  }, known);
  let bytes = 0;
  let undecided = 0;
  const hashes = new Set<string>();
  const totalMs = milliseconds(() => {
    for (let index = 0; index < screens; index += 1) {
      const plan = planMigration(screenOf(index, classes), { ...options, eqFits });
      bytes += JSON.stringify(plan).length;
      if (!plan.decided) undecided += 1;
      hashes.add(canonicalHash(plan.configuration));
    }
  });
  return {
    screens,
    classes,
    equalizersFitted: asked,
    undecided,
    differentResults: hashes.size,
    totalS: round(totalMs / 1000),
    msPerScreen: round(totalMs / screens),
    planBytes: Math.round(bytes / screens),
    heapMiB: Math.round(process.memoryUsage().heapUsed / 2 ** 20),
  };
}

/** One screen: its class has EQ curves of its own, the screen itself its own levels and delays. */
function screenOf(index: number, classes: number): Configuration {
  const kind = index % classes;
  const own = Math.floor(index / classes);
  return {
    ...large,
    screen: { ...large.screen, screenId: `screen-${index}` },
    equalizations: large.equalizations.map((set) => ({
      ...set,
      channels: set.channels.map((channel) => ({
        ...channel,
        ...(channel.graphic === undefined
          ? {}
          : {
              graphic: {
                ...channel.graphic,
                gainsDb: channel.graphic.gainsDb.map((gain, band) =>
                  band === kind % channel.graphic!.gainsDb.length ? Math.max(-12, gain - 0.5) : gain,
                ),
              },
            }),
      })),
    })),
    channels: large.channels.map((channel, at) => ({
      ...channel,
      levelDb: round(channel.levelDb + ((own + at) % 7) * 0.1),
    })),
    outputs: large.outputs.map((output, at) => ({
      ...output,
      delayMs: round(output.delayMs + ((own * 3 + at) % 11) * 0.01),
    })),
  };
}

function milliseconds(task: () => unknown): number {
  const start = performance.now();
  task();
  return performance.now() - start;
}

function round(value: number): number {
  return Number(value.toPrecision(5));
}
