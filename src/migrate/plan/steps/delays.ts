import type { Configuration, NumberGrid, Question, UnitProfile } from "../../../model/index.ts";
import { DELAY_TOLERANCE_MS, delayGridMs, gridStep, unitLatencyMs } from "../../../profile/index.ts";
import { printMs } from "../../../words/index.ts";
import { figure } from "../figure.ts";
import { candidatesNear } from "../staging/candidates.ts";
import { askOutOfRange } from "../staging/out-of-range.ts";
import { clean, excessOf } from "../staging/restage.ts";
import { solveStages } from "../staging/solve-stages.ts";
import { speakerStages } from "../staging/speaker-stages.ts";
import { stageItem } from "../staging/stage-item.ts";
import { outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/**
 * Delays: alignment inside each loudspeaker first, then between loudspeakers and channels, on the new unit's steps. What
 * all of them have in common, and the difference of the two units' latencies, is taken out of the program delay, as far
 * as there is any.
 */
export const delays: Step = {
  name: "delays",
  run: (context) => {
    const grids = gridsOf(context.to, context.next.unit.sampleRateHz);
    const ranged = settleRange({ ...context, next: withinDelays(context.next, grids) }, grids);
    const solved = solve(context, ranged.next, ranged.fixed, grids);
    return {
      next: solved.next,
      items: [...ranged.items, ...valueItems(context, solved.next, ranged.fixed, grids)],
      questions: ranged.questions,
      delays: { unit: "ms", ...solved.spread },
    };
  },
};

interface DelayGrids {
  readonly preset: NumberGrid;
  readonly channel: NumberGrid;
  readonly output: NumberGrid;
}

function gridsOf(to: UnitProfile, sampleRateHz: number): DelayGrids {
  return {
    preset: delayGridMs(to.presets.delay, sampleRateHz),
    channel: delayGridMs(to.channels.delay, sampleRateHz),
    output: delayGridMs(to.outputs.delay, sampleRateHz),
  };
}

/** Moves what an output cannot hold to its channel, if no other channel plays there, and the other way round. */
function withinDelays(configuration: Configuration, grids: DelayGrids): Configuration {
  let next = configuration;
  for (const { id } of configuration.channels) {
    const channel = next.channels.find((item) => item.id === id)!;
    const fed = next.outputs.filter(({ mix }) => mix.some(({ channelId }) => channelId === id));
    if (fed.length === 0 || fed.some(({ mix }) => mix.length !== 1)) continue;
    const tooLong = Math.max(0, ...fed.map(({ delayMs }) => excessOf(grids.output, delayMs)));
    const least = Math.min(...fed.map(({ delayMs }) => delayMs));
    const shift =
      tooLong > 0 ? Math.min(tooLong, least) : -Math.max(0, excessOf(grids.channel, channel.delayMs));
    if (shift === 0) continue;
    const ids = new Set(fed.map((output) => output.id));
    next = {
      ...next,
      channels: next.channels.map((item) =>
        item.id === id ? { ...item, delayMs: clean(item.delayMs + shift) } : item,
      ),
      outputs: next.outputs.map((output) =>
        ids.has(output.id) ? { ...output, delayMs: clean(output.delayMs - shift) } : output,
      ),
    };
  }
  return next;
}

function settleRange(context: StepContext, grids: DelayGrids) {
  const { next, words, claimed, leaves } = context;
  const fixed = new Set<string>();
  const items: StepItem[] = [];
  const questions: Question[] = [];
  const settle = (at: StepItem["place"], wanted: number, grid: NumberGrid): void => {
    if (excessOf(grid, wanted) === 0) return;
    const verdict: Verdict = askOutOfRange(context, {
      place: at,
      wanted,
      grid,
      print: printMs,
      without: undefined,
      careful: false,
    });
    fixed.add(at.address);
    questions.push(verdict.question);
    items.push({
      outcome: outcomeOf(verdict, "rounded"),
      place: at,
      words: `${at.words} cannot be set as before. ${verdict.option.words}`,
      numbers: verdict.option.numbers,
      claims: [at.address].filter((address) => !claimed.has(address) && leaves.includes(address)),
      questionId: verdict.question.id,
    });
  };
  for (const preset of next.presets) {
    const at = place(`presets/${preset.id}/delayMs`, `Preset '${preset.label}', program delay`);
    settle(at, preset.delayMs, grids.preset);
  }
  for (const channel of next.channels) {
    const at = place(`channels/${channel.id}/delayMs`, `Channel ${channel.label}, delay`);
    settle(at, channel.delayMs, grids.channel);
  }
  for (const output of next.outputs) {
    const at = place(`outputs/${output.id}/delayMs`, `${words.output(output)}, delay`);
    settle(at, output.delayMs, grids.output);
  }
  return { next, fixed, items, questions };
}

function solve(context: StepContext, next: Configuration, fixed: ReadonlySet<string>, grids: DelayGrids) {
  const { from, to, old } = context;
  const reach = Math.max(
    gridStep(grids.channel, 0),
    ...next.outputs.map(({ delayMs }) => gridStep(grids.output, delayMs)),
  );
  const near = (grid: NumberGrid, wanted: number, at: string) => {
    const found = candidatesNear(grid, wanted, { reach, tolerance: DELAY_TOLERANCE_MS });
    return fixed.has(at) ? [{ value: found[0]!.value, error: 0 }] : found;
  };
  const stages = solveStages({
    speakers: speakerStages(next, next.outputs, (output) => ({
      id: output.id,
      own: near(grids.output, output.delayMs, `outputs/${output.id}/delayMs`),
      channels: output.mix.map(({ channelId }) => ({ channelId, mix: [{ value: 0, error: 0 }] })),
    })),
    channels: next.channels.map((channel) => ({
      id: channel.id,
      own: near(grids.channel, channel.delayMs, `channels/${channel.id}/delayMs`),
    })),
  });
  const errors = [...stages.channelErrors.values()];
  const common = errors.length === 0 ? 0 : (Math.min(...errors) + Math.max(...errors)) / 2;
  const latencyChange =
    unitLatencyMs(to, next.unit.sampleRateHz) - unitLatencyMs(from, old.unit.sampleRateHz);
  const later = common + latencyChange;
  const presets = new Map(
    next.presets.map((preset) => {
      const fixedHere = fixed.has(`presets/${preset.id}/delayMs`);
      const wanted = fixedHere ? preset.delayMs : Math.max(0, preset.delayMs - later);
      const setting = candidatesNear(grids.preset, wanted, { reach: 0, tolerance: DELAY_TOLERANCE_MS })[0]!;
      return [preset.id, { delayMs: six(setting.value), off: setting.value + later - preset.delayMs }];
    }),
  );
  const offs = [...presets.values()].map(({ off }) => off);
  return {
    next: {
      ...next,
      channels: next.channels.map((channel) => ({
        ...channel,
        delayMs: six(stages.channels.get(channel.id)!),
      })),
      presets: next.presets.map((preset) => ({ ...preset, delayMs: presets.get(preset.id)!.delayMs })),
      outputs: next.outputs.map((output) => ({ ...output, delayMs: six(stages.outputs.get(output.id)!) })),
    },
    spread: {
      betweenWays: figure(stages.betweenWays, 6),
      betweenChannels: figure(stages.betweenChannels, 6),
      betweenPresets: figure(offs.length === 0 ? 0 : Math.max(...offs) - Math.min(...offs), 6),
      common: figure(offs.length === 0 ? later : (Math.max(...offs) + Math.min(...offs)) / 2, 6),
      largest: figure(
        Math.max(0, ...offs.map(Math.abs)) + stages.betweenChannels / 2 + stages.betweenWays / 2,
        6,
      ),
    },
  };
}

/** Whole samples written as milliseconds with six decimals are recognized as such. */
function six(delayMs: number): number {
  return figure(delayMs, 6);
}

function valueItems(
  { old, words, claimed }: StepContext,
  next: Configuration,
  fixed: ReadonlySet<string>,
  grids: DelayGrids,
): readonly StepItem[] {
  const item = (address: string, about: string, before: number, after: number, grid: NumberGrid) =>
    fixed.has(address) || claimed.has(address)
      ? []
      : [stageItem({ place: place(address, about), before, after, grid, print: (ms) => printMs(ms, 3) })];
  return [
    ...next.presets.flatMap((preset) => {
      const before = old.presets.find(({ id }) => id === preset.id)!;
      const about = `Preset '${preset.label}', program delay`;
      return item(`presets/${preset.id}/delayMs`, about, before.delayMs, preset.delayMs, grids.preset);
    }),
    ...next.channels.flatMap((channel) => {
      const before = old.channels.find(({ id }) => id === channel.id)!;
      const about = `Channel ${channel.label}, delay`;
      return item(`channels/${channel.id}/delayMs`, about, before.delayMs, channel.delayMs, grids.channel);
    }),
    ...next.outputs.flatMap((output) => {
      const before = old.outputs.find(({ id }) => id === output.id)!;
      const about = `${words.output(output)}, delay`;
      return item(`outputs/${output.id}/delayMs`, about, before.delayMs, output.delayMs, grids.output);
    }),
  ];
}
