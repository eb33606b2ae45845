import type { Configuration, Output, Preset, Question, UnitProfile } from "../../model/index.ts";
import { gridStep } from "../../profile/index.ts";
import { printDb } from "../../units/index.ts";
import { channelRank, outputOrder, presetOrder } from "../order.ts";
import { candidatesNear } from "../staging/candidates.ts";
import { askOutOfRange } from "../staging/out-of-range.ts";
import { clean, excessOf, type LevelGrids, withinStages } from "../staging/restage.ts";
import { type PresetStage, solvePresets } from "../staging/solve-presets.ts";
import { type SpeakerStage, solveStages } from "../staging/solve-stages.ts";
import { stageItem } from "../staging/stage-item.ts";
import { outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/**
 * Levels: the total of every path is kept, whatever stages it is made of (input trim, crossing, preset, channel, mix,
 * output). Steps are chosen so that what comes in as differences is smallest between the ways of a loudspeaker, then
 * between loudspeakers and channels, then between presets, then overall; see solveStages and solvePresets.
 */
export const levels: Step = {
  name: "levels",
  run: (context) => {
    const grids = gridsOf(context.to);
    const inRange = settleRange({ ...context, next: withinStages(context.next, grids) }, grids);
    const solved = solve(inRange.next, inRange.fixed, grids, context);
    return {
      next: solved.next,
      items: [
        ...inRange.items,
        ...crossingItems(context, solved.next),
        ...valueItems(context, solved.next, inRange.fixed),
      ],
      questions: inRange.questions,
      levels: { unit: "dB", ...solved.spread, largest: largestDeviation(inRange.next, solved.next) },
    };
  },
};

function gridsOf(to: UnitProfile): LevelGrids {
  return {
    trim: to.sources.gainDb,
    route: to.presets.routingGainDb,
    preset: to.presets.levelDb,
    channel: to.channels.levelDb,
    mix: to.outputs.mixGainDb,
    gain: to.outputs.gainDb,
  };
}

interface InRange {
  readonly next: Configuration;
  /** Addresses of numbers that a decision sets, with the number. */
  readonly fixed: ReadonlySet<string>;
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
}

/** Asks about every number that is outside its range even after restaging. */
function settleRange(context: StepContext, grids: LevelGrids): InRange {
  const { words, from } = context;
  let { next } = context;
  const fixed = new Set<string>();
  const items: StepItem[] = [];
  const questions: Question[] = [];
  const settle = (verdict: Verdict, at: StepItem["place"], whole?: string) => {
    fixed.add(at.address);
    questions.push(verdict.question);
    items.push({
      outcome: outcomeOf(verdict, verdict.option.id === "nearest" ? "rounded" : "lost"),
      place: at,
      words: `${at.words} cannot be set as before. ${verdict.option.words}`,
      numbers: verdict.option.numbers,
      claimsRest: [verdict.option.id === "leave-out" && whole !== undefined ? whole : at.address],
      questionId: verdict.question.id,
    });
    return verdict.option;
  };
  for (const preset of [...next.presets].sort(presetOrder)) {
    if (excessOf(grids.preset, preset.levelDb) !== 0) {
      const at = place(`presets/${preset.id}/levelDb`, `Preset '${preset.label}', level`);
      settle(askRange(context, at, preset.levelDb, grids.preset, undefined), at);
    }
    for (const route of preset.routing.filter(({ gainDb }) => excessOf(grids.route, gainDb) !== 0)) {
      const at = place(
        `presets/${preset.id}/routing/${route.id}/gainDb`,
        `Preset '${preset.label}', crossing to ${words.channel(route.channelId)}`,
      );
      const without = { optionId: "leave-out", words: "The crossing is left out." } as const;
      const whole = `presets/${preset.id}/routing/${route.id}`;
      const option = settle(askRange(context, at, route.gainDb, grids.route, without), at, whole);
      if (option.id === "leave-out") next = withoutRoute(next, preset.id, route.id);
    }
  }
  for (const output of [...next.outputs].sort(outputOrder(from))) {
    for (const part of output.mix.filter(({ gainDb }) => excessOf(grids.mix, gainDb) !== 0)) {
      const at = place(
        `outputs/${output.id}/mix/${part.channelId}/gainDb`,
        `${words.output(output)}, share of ${words.channel(part.channelId)}`,
      );
      const without = { optionId: "leave-out", words: "The share is left out." } as const;
      const whole = `outputs/${output.id}/mix/${part.channelId}`;
      const option = settle(askRange(context, at, part.gainDb, grids.mix, without), at, whole);
      if (option.id === "leave-out") next = withoutMix(next, output.id, part.channelId);
    }
    if (excessOf(grids.gain, output.gainDb) !== 0) {
      const at = place(`outputs/${output.id}/gainDb`, `${words.output(output)}, gain`);
      const without = { optionId: "mute-output", words: "The output stays muted." } as const;
      const verdict = askRange(context, at, output.gainDb, grids.gain, without);
      const option = settle(verdict, at);
      if (option.id === "mute-output" && !output.mute) {
        next = muted(next, output.id);
        items.push(mutedItem(output, verdict, words.output(output)));
      }
    }
  }
  for (const source of next.sources) {
    for (const channel of source.channels.filter(({ gainDb }) => excessOf(grids.trim, gainDb) !== 0)) {
      const at = place(
        `sources/${source.id}/channels/${channel.id}/gainDb`,
        `Source '${source.label}', position ${channel.position}, trim`,
      );
      settle(askRange(context, at, channel.gainDb, grids.trim, undefined), at);
    }
  }
  return { next, fixed, items, questions };
}

function mutedItem(output: Output, verdict: Verdict, words: string): StepItem {
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: place(`outputs/${output.id}/mute`, words),
    words: "The output stays muted, because its gain cannot be set.",
    claims: [`outputs/${output.id}/mute`],
    questionId: verdict.question.id,
  };
}

function askRange(
  context: StepContext,
  at: StepItem["place"],
  wanted: number,
  grid: LevelGrids["gain"],
  without: { readonly optionId: "leave-out" | "mute-output"; readonly words: string } | undefined,
): Verdict {
  const careful = excessOf(grid, wanted) < 0;
  return askOutOfRange(context, { place: at, wanted, grid, print: printDb, without, careful });
}

function withoutRoute(configuration: Configuration, presetId: string, routeId: string): Configuration {
  return {
    ...configuration,
    presets: configuration.presets.map((preset) =>
      preset.id === presetId
        ? { ...preset, routing: preset.routing.filter(({ id }) => id !== routeId) }
        : preset,
    ),
  };
}

function withoutMix(configuration: Configuration, outputId: string, channelId: string): Configuration {
  return {
    ...configuration,
    outputs: configuration.outputs.map((output) =>
      output.id === outputId
        ? { ...output, mix: output.mix.filter((part) => part.channelId !== channelId) }
        : output,
    ),
  };
}

function muted(configuration: Configuration, outputId: string): Configuration {
  return {
    ...configuration,
    outputs: configuration.outputs.map((output) =>
      output.id === outputId ? { ...output, mute: true } : output,
    ),
  };
}

/** Solves the steps of all stages; a number outside its range takes the nearest setting and is left out of the balance. */
function solve(next: Configuration, fixed: ReadonlySet<string>, grids: LevelGrids, { from }: StepContext) {
  const reach = coarsestStep(next, grids);
  const near = (grid: LevelGrids["gain"], wanted: number, at: string) => {
    const found = candidatesNear(grid, wanted, { reach });
    return fixed.has(at) ? [{ value: found[0]!.value, error: 0 }] : found;
  };
  const stages = solveStages({
    speakers: speakerStages(next, [...next.outputs].sort(outputOrder(from)), (output) => ({
      id: output.id,
      own: near(grids.gain, output.gainDb, `outputs/${output.id}/gainDb`),
      channels: output.mix.map((part) => ({
        channelId: part.channelId,
        mix: near(grids.mix, part.gainDb, `outputs/${output.id}/mix/${part.channelId}/gainDb`),
      })),
    })),
    channels: [...next.channels]
      .sort((a, b) => channelRank(a.label) - channelRank(b.label))
      .map((channel) => ({
        id: channel.id,
        own: near(grids.channel, channel.levelDb, `channels/${channel.id}/levelDb`),
      })),
  });
  const trims = new Map<string, { readonly value: number; readonly error: number }>(
    next.sources.flatMap((source) =>
      source.channels.map((channel) => [
        channel.id,
        near(grids.trim, channel.gainDb, `sources/${source.id}/channels/${channel.id}/gainDb`)[0]!,
      ]),
    ),
  );
  const roomChannels = new Set(
    next.outputs.flatMap(({ feeds, mix }) =>
      feeds.kind === "loudspeaker" ? mix.map(({ channelId }) => channelId) : [],
    ),
  );
  const presets = solvePresets(
    [...next.presets].sort(presetOrder).map(
      (preset): PresetStage => ({
        id: preset.id,
        own: near(grids.preset, preset.levelDb, `presets/${preset.id}/levelDb`),
        routes: preset.routing.map((route) => ({
          id: route.id,
          candidates: near(grids.route, route.gainDb, `presets/${preset.id}/routing/${route.id}/gainDb`),
          added:
            (stages.channelErrors.get(route.channelId) ?? 0) + (trims.get(route.sourceChannelId)?.error ?? 0),
          inRoom: roomChannels.has(route.channelId),
        })),
      }),
    ),
  );
  return {
    next: {
      ...next,
      sources: next.sources.map((source) => ({
        ...source,
        channels: source.channels.map((channel) => ({ ...channel, gainDb: trims.get(channel.id)!.value })),
      })),
      channels: next.channels.map((channel) => ({ ...channel, levelDb: stages.channels.get(channel.id)! })),
      presets: next.presets.map((preset) => ({
        ...preset,
        levelDb: presets.presets.get(preset.id)!,
        routing: preset.routing.map((route) => ({
          ...route,
          gainDb: presets.routes.get(preset.id)!.get(route.id)!,
        })),
      })),
      outputs: next.outputs.map((output) => ({
        ...output,
        gainDb: stages.outputs.get(output.id)!,
        mix: output.mix.map((part) => ({
          ...part,
          gainDb: stages.mixes.get(output.id)!.get(part.channelId)!,
        })),
      })),
    },
    spread: {
      betweenWays: milli(stages.betweenWays),
      betweenChannels: milli(Math.max(stages.betweenChannels, presets.betweenChannels)),
      betweenPresets: milli(presets.betweenPresets),
      common: milli(presets.common),
    },
  };
}

/** Loudspeakers with their ways, and every other feed by itself, in the order of their first output. */
export function speakerStages(
  configuration: Configuration,
  outputs: readonly Output[],
  stageOf: (output: Output) => SpeakerStage["outputs"][number],
): readonly SpeakerStage[] {
  const groups = new Map<string, Output[]>();
  for (const output of outputs) {
    const key = output.feeds.kind === "loudspeaker" ? `l/${output.feeds.loudspeakerId}` : `o/${output.id}`;
    groups.set(key, [...(groups.get(key) ?? []), output]);
  }
  return [...groups].map(([key, members]) => ({
    id: key,
    outputs: members.map(stageOf),
    inRoom: key.startsWith("l/") && configuration.loudspeakers.length > 0,
  }));
}

function coarsestStep(next: Configuration, grids: LevelGrids): number {
  return Math.max(
    gridStep(grids.preset, 0),
    gridStep(grids.channel, 0),
    gridStep(grids.route, 0),
    gridStep(grids.mix, 0),
    ...next.outputs.map(({ gainDb }) => gridStep(grids.gain, gainDb)),
  );
}

function valueItems(
  context: StepContext,
  next: Configuration,
  fixed: ReadonlySet<string>,
): readonly StepItem[] {
  const { old, to, words, claimed } = context;
  const grids = gridsOf(to);
  const item = (address: string, about: string, before: number, after: number, grid: LevelGrids["gain"]) =>
    fixed.has(address) || claimed.has(address)
      ? []
      : [stageItem({ place: place(address, about), before, after, grid, print: (db) => printDb(db, 2) })];
  return [
    ...next.sources.flatMap((source) =>
      source.channels.flatMap((channel) => {
        const before = old.sources
          .find(({ id }) => id === source.id)!
          .channels.find(({ id }) => id === channel.id)!;
        const at = `sources/${source.id}/channels/${channel.id}/gainDb`;
        return item(
          at,
          `Source '${source.label}', position ${channel.position}, trim`,
          before.gainDb,
          channel.gainDb,
          grids.trim,
        );
      }),
    ),
    ...next.presets.flatMap((preset) => presetItems(preset, old, item, grids, words)),
    ...next.channels.flatMap((channel) => {
      const before = old.channels.find(({ id }) => id === channel.id)!;
      const at = `channels/${channel.id}/levelDb`;
      return item(at, `Channel ${channel.label}, level`, before.levelDb, channel.levelDb, grids.channel);
    }),
    ...next.outputs.flatMap((output) => {
      const before = old.outputs.find(({ id }) => id === output.id)!;
      const about = words.output(output);
      return [
        ...output.mix.flatMap((part) => {
          const was = before.mix.find(({ channelId }) => channelId === part.channelId);
          const at = `outputs/${output.id}/mix/${part.channelId}/gainDb`;
          const name = `${about}, share of ${words.channel(part.channelId)}`;
          return was === undefined ? [] : item(at, name, was.gainDb, part.gainDb, grids.mix);
        }),
        ...item(`outputs/${output.id}/gainDb`, `${about}, gain`, before.gainDb, output.gainDb, grids.gain),
      ];
    }),
  ];
}

/** Crossings and shares that are there as before, whatever their gain. */
function crossingItems({ old, words, claimed }: StepContext, next: Configuration): readonly StepItem[] {
  const kept = (at: StepItem["place"], addresses: readonly string[], things: string): StepItem => ({
    outcome: "kept",
    place: at,
    words: `${addresses.length === 0 ? "No" : "The"} ${things} as before.`,
    claims: addresses.filter((address) => !claimed.has(address)),
  });
  return [
    ...next.presets.map((preset) => {
      const before = new Set(old.presets.find(({ id }) => id === preset.id)!.routing.map(({ id }) => id));
      const addresses = preset.routing
        .filter(({ id }) => before.has(id))
        .flatMap(({ id }) =>
          ["id", "sourceChannelId", "channelId"].map((name) => `presets/${preset.id}/routing/${id}/${name}`),
        );
      const at = place(`presets/${preset.id}/routing`, `Preset '${preset.label}', routing`);
      return kept(at, addresses, "crossings");
    }),
    ...next.outputs.map((output) => {
      const before = new Set(
        old.outputs.find(({ id }) => id === output.id)!.mix.map(({ channelId }) => channelId),
      );
      const addresses = output.mix
        .filter(({ channelId }) => before.has(channelId))
        .map(({ channelId }) => `outputs/${output.id}/mix/${channelId}/channelId`);
      const at = place(`outputs/${output.id}/mix`, `${words.output(output)}, mix`);
      return kept(at, addresses, "channels");
    }),
  ];
}

function presetItems(
  preset: Preset,
  old: Configuration,
  item: (
    address: string,
    about: string,
    before: number,
    after: number,
    grid: LevelGrids["gain"],
  ) => readonly StepItem[],
  grids: LevelGrids,
  words: StepContext["words"],
): readonly StepItem[] {
  const before = old.presets.find(({ id }) => id === preset.id)!;
  const about = `Preset '${preset.label}'`;
  return [
    ...item(`presets/${preset.id}/levelDb`, `${about}, level`, before.levelDb, preset.levelDb, grids.preset),
    ...preset.routing.flatMap((route) => {
      const was = before.routing.find(({ id }) => id === route.id)!;
      const at = `presets/${preset.id}/routing/${route.id}/gainDb`;
      const name = `${about}, crossing to ${words.channel(route.channelId)}`;
      return item(at, name, was.gainDb, route.gainDb, grids.route);
    }),
  ];
}

/** Largest deviation of any path's total from what was wanted. */
function largestDeviation(wanted: Configuration, next: Configuration): number {
  const now = pathTotals(next);
  let largest = 0;
  for (const [path, total] of pathTotals(wanted)) {
    largest = Math.max(largest, Math.abs((now.get(path) ?? total) - total));
  }
  return milli(largest);
}

/** Level of every path without its filters, by the path's name. */
function pathTotals(configuration: Configuration): ReadonlyMap<string, number> {
  const totals = new Map<string, number>();
  const trims = new Map(
    configuration.sources.flatMap(({ channels }) => channels.map(({ id, gainDb }) => [id, gainDb] as const)),
  );
  const channelLevels = new Map(configuration.channels.map(({ id, levelDb }) => [id, levelDb]));
  for (const preset of configuration.presets) {
    for (const route of preset.routing) {
      for (const output of configuration.outputs) {
        const part = output.mix.find(({ channelId }) => channelId === route.channelId);
        if (part === undefined) continue;
        totals.set(
          `${preset.id}/${route.id}/${output.id}`,
          clean(
            (trims.get(route.sourceChannelId) ?? 0) +
              route.gainDb +
              preset.levelDb +
              (channelLevels.get(route.channelId) ?? 0) +
              part.gainDb +
              output.gainDb,
          ),
        );
      }
    }
  }
  return totals;
}

function milli(value: number): number {
  return Math.round(value * 1000) / 1000;
}
