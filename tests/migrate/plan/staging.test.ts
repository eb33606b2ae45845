import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Candidate, candidatesNear } from "../../../src/migrate/plan/staging/candidates.ts";
import { solvePresets } from "../../../src/migrate/plan/staging/solve-presets.ts";
import { type SpeakerStage, solveStages } from "../../../src/migrate/plan/staging/solve-stages.ts";

const tenth = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((k) => Number((k / 10).toFixed(1)));

const grid = (step: number) => ({ kind: "step", min: -60, max: 12, step }) as const;
const near = (step: number, wanted: number) => candidatesNear(grid(step), wanted, { reach: step });

function spread(errors: readonly number[]): number {
  return errors.length === 0 ? 0 : Math.max(...errors) - Math.min(...errors);
}

function middle(errors: readonly number[]): number {
  return (Math.max(...errors) + Math.min(...errors)) / 2;
}

/** All ways to choose one candidate of each list. */
function* choices(lists: readonly (readonly Candidate[])[]): Generator<readonly Candidate[]> {
  const [first, ...rest] = lists;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const candidate of first) for (const others of choices(rest)) yield [candidate, ...others];
}

const loudspeakers = fc.array(fc.array(tenth(-12, 0), { minLength: 1, maxLength: 3 }), {
  minLength: 1,
  maxLength: 3,
});

/** One channel a loudspeaker; mixes stay as they are. */
function stagesOf(gains: readonly (readonly number[])[], step: number): readonly SpeakerStage[] {
  return gains.map((ways, speaker) => ({
    id: `s${speaker}`,
    inRoom: true,
    outputs: ways.map((gain, way) => ({
      id: `s${speaker}w${way}`,
      own: near(step, gain),
      channels: [{ channelId: `c${speaker}`, mix: [{ value: 0, error: 0 }] }],
    })),
  }));
}

describe("solveStages", () => {
  it("brings in as little difference between ways, then between channels, as trying everything does", () => {
    fc.assert(
      fc.property(
        loudspeakers,
        fc.array(tenth(-6, 6), { minLength: 3, maxLength: 3 }),
        fc.constantFrom(0.25, 0.5, 1),
        (gains, levels, step) => {
          const speakers = stagesOf(gains, step);
          const channels = gains.map((_, index) => ({ id: `c${index}`, own: near(step, levels[index]!) }));
          const solution = solveStages({ speakers, channels });

          const bestWays = speakers.map((speaker) => {
            const all = [...choices(speaker.outputs.map(({ own }) => own))].map((picks) =>
              picks.map(({ error }) => error),
            );
            const least = Math.min(...all.map(spread));
            return { least, middles: all.filter((errors) => spread(errors) <= least + 1e-9).map(middle) };
          });
          const bestChannels = Math.min(
            ...[...choices(channels.map(({ own }) => own))].map((picks) => {
              const lists = picks.map(({ error }, index) =>
                bestWays[index]!.middles.map((item) => ({ value: 0, error: item + error })),
              );
              return Math.min(
                ...[...choices(lists)].map((chosen) => spread(chosen.map((item) => item.error))),
              );
            }),
          );
          expect(solution.betweenWays).toBeCloseTo(Math.max(...bestWays.map(({ least }) => least)), 9);
          expect(solution.betweenChannels).toBeCloseTo(bestChannels, 9);

          const errors = gains.map((ways, speaker) =>
            ways.map((gain, way) => solution.outputs.get(`s${speaker}w${way}`)! - gain),
          );
          errors.forEach((list, index) => {
            expect(spread(list)).toBeCloseTo(bestWays[index]!.least, 9);
          });
          const middles = errors.map(
            (list, index) => middle(list) + solution.channels.get(`c${index}`)! - levels[index]!,
          );
          expect(spread(middles)).toBeCloseTo(bestChannels, 9);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("changes nothing where every value is a step already", () => {
    fc.assert(
      fc.property(loudspeakers, fc.constantFrom(0.1), (gains, step) => {
        const solution = solveStages({
          speakers: stagesOf(gains, step),
          channels: gains.map((_, index) => ({ id: `c${index}`, own: near(step, 0) })),
        });
        gains.forEach((ways, speaker) => {
          ways.forEach((gain, way) => {
            expect(solution.outputs.get(`s${speaker}w${way}`)).toBe(gain);
          });
        });
        expect([...solution.channels.values()].every((level) => level === 0)).toBe(true);
      }),
    );
  });

  it("lets a finer mix take up what a coarser gain cannot", () => {
    const solution = solveStages({
      speakers: [
        {
          id: "s",
          inRoom: true,
          outputs: [-3.3, -6.1].map((gain, way) => ({
            id: `w${way}`,
            own: near(0.5, gain),
            channels: [{ channelId: "c", mix: candidatesNear(grid(0.1), 0, { reach: 0.5 }) }],
          })),
        },
      ],
      channels: [{ id: "c", own: near(0.5, 0) }],
    });
    expect(solution.betweenWays).toBeCloseTo(0, 9);
    const total = (way: number) =>
      solution.outputs.get(`w${way}`)! + solution.mixes.get(`w${way}`)!.get("c")!;
    expect(total(0) - total(1)).toBeCloseTo(2.8, 9);
  });
});

describe("solvePresets", () => {
  it("brings in as little difference between routes, then between presets, as trying everything does", () => {
    const preset = fc.record({
      level: tenth(-10, 6),
      routes: fc.array(fc.record({ gain: tenth(-6, 0), added: tenth(-1, 1) }), {
        minLength: 1,
        maxLength: 3,
      }),
    });
    fc.assert(
      fc.property(
        fc.array(preset, { minLength: 1, maxLength: 3 }),
        fc.constantFrom(0.25, 0.5),
        fc.constantFrom(0.25, 1),
        (presets, routeStep, levelStep) => {
          const reach = Math.max(routeStep, levelStep);
          const at = (step: number, wanted: number) => candidatesNear(grid(step), wanted, { reach });
          const stages = presets.map(({ level, routes }, index) => ({
            id: `p${index}`,
            own: at(levelStep, level),
            routes: routes.map(({ gain, added }, route) => ({
              id: `r${route}`,
              candidates: at(routeStep, gain),
              added,
              inRoom: true,
            })),
          }));
          const solution = solvePresets(stages);
          const inside = stages.map(({ routes }) => {
            const lists = routes.map(({ candidates, added }) =>
              candidates.map(({ value, error }) => ({ value, error: error + added })),
            );
            const all = [...choices(lists)].map((picks) => picks.map(({ error }) => error));
            const least = Math.min(...all.map(spread));
            return { least, middles: all.filter((errors) => spread(errors) <= least + 1e-9).map(middle) };
          });
          const between = Math.min(
            ...[
              ...choices(
                stages.map(({ own }, index) =>
                  own.flatMap(({ value, error }) =>
                    [...new Set(inside[index]!.middles)].map((item) => ({ value, error: error + item })),
                  ),
                ),
              ),
            ].map((picks) => spread(picks.map(({ error }) => error))),
          );
          expect(solution.betweenChannels).toBeCloseTo(Math.max(...inside.map(({ least }) => least)), 9);
          expect(solution.betweenPresets).toBeCloseTo(between, 9);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("candidatesNear", () => {
  it("gives the nearest setting first, keeps a setting's exact number, and stays inside the range", () => {
    const found = candidatesNear(grid(0.5), 11.8, { reach: 1 });
    expect(found.map(({ value }) => value)).toEqual([12, 11.5, 11]);
    expect(candidatesNear(grid(0.1), -3.3, { reach: 0.1 })[0]).toEqual({ value: -3.3, error: 0 });
    expect(candidatesNear(grid(0.5), 40, { reach: 1 })[0]?.value).toBe(12);
  });
});
