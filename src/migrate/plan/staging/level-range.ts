import type { Configuration, NumberGrid, Output, Question } from "../../../model/index.ts";
import { printDb } from "../../../words/index.ts";
import { outcomeOf, type Part, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";
import type { LevelGrids } from "./level-grids.ts";
import { askOutOfRange } from "./out-of-range.ts";
import { excessOf } from "./restage.ts";

export interface InRange extends Part {
  /** Addresses of numbers that a decision sets. */
  readonly fixed: ReadonlySet<string>;
}

/** Asks about every number that is outside its range even after restaging. */
export function settleLevelRange(context: StepContext, grids: LevelGrids): InRange {
  const { words } = context;
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
  for (const preset of next.presets) {
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
  for (const output of next.outputs) {
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
  grid: NumberGrid,
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
