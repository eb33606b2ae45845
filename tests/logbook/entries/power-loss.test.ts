import { describe, expect, it } from "vitest";
import { LONG } from "../../runs.ts";
import { CrashStore, type Tearing } from "./support/crash-store.ts";
import { CHANGING, countOperations, watchedStore } from "./support/faulty-store.ts";
import { randomFrom } from "./support/random.ts";
import { expectSound, noPromises, runScenario } from "./support/scenario.ts";

class PowerLoss extends Error {}

/** Runs the scenario on a medium that loses power before operation `at`, and checks what the medium has then. */
function loosePowerAt(at: number, tearing: Tearing, seed: number): void {
  const medium = new CrashStore();
  const promises = noPromises();
  let after: CrashStore | undefined;
  const chance = randomFrom(seed);
  const store = watchedStore(medium, CHANGING, ({ number }) => {
    if (number < at) return;
    after ??= medium.crash(tearing, chance);
    throw new PowerLoss();
  });
  try {
    runScenario(store, promises);
  } catch (error) {
    if (!(error instanceof PowerLoss)) throw error;
  }
  expectSound(
    after ?? medium.crash(tearing, chance),
    promises,
    `before operation ${at}, ${tearing}, seed ${seed}`,
  );
}

describe("power loss", () => {
  const operations = countOperations(new CrashStore(), (store) => runScenario(store, noPromises()));

  it("has many moments to choose from", () => {
    expect(operations).toBeGreaterThan(100);
  });

  const tearings = ["lost", "torn", "zeroed", "kept"] as const;

  it("at any operation harms nothing that was recorded", () => {
    for (let at = 1; at <= operations + 1; at += 1) {
      for (const seed of [at, 1000 + at]) loosePowerAt(at, tearings[seed % tearings.length]!, seed);
    }
  });

  it.runIf(LONG).each(tearings)(
    "at any operation and in eight ways harms nothing that was recorded: bytes not flushed are %s",
    (tearing) => {
      for (let seed = 1; seed <= 8; seed += 1) {
        for (let at = 1; at <= operations + 1; at += 1) loosePowerAt(at, tearing, seed * 1000 + at);
      }
    },
    600_000,
  );
});
