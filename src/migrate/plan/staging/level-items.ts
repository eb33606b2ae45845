import type { Configuration, NumberGrid, Preset } from "../../../model/index.ts";
import { printDb } from "../../../words/index.ts";
import type { StepContext, StepItem } from "../step.ts";
import { place } from "../words.ts";
import { type LevelGrids, levelGrids } from "./level-grids.ts";
import { stageItem } from "./stage-item.ts";

/** Crossings and shares that are there as before, whatever their gain. */
export function crossingItems(
  { old, words, claimed }: StepContext,
  next: Configuration,
): readonly StepItem[] {
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

/** What became of every number of the level stages that is not accounted for yet. */
export function valueItems(
  context: StepContext,
  next: Configuration,
  fixed: ReadonlySet<string>,
): readonly StepItem[] {
  const { old, to, words, claimed } = context;
  const grids = levelGrids(to);
  const item = (address: string, about: string, before: number, after: number, grid: NumberGrid) =>
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

function presetItems(
  preset: Preset,
  old: Configuration,
  item: (
    address: string,
    about: string,
    before: number,
    after: number,
    grid: NumberGrid,
  ) => readonly StepItem[],
  grids: LevelGrids,
  words: StepContext["words"],
): readonly StepItem[] {
  const before = old.presets.find(({ id }) => id === preset.id)!;
  const about = `Preset '${preset.label}'`;
  return [
    ...item(`presets/${preset.id}/levelDb`, `${about}, level`, before.levelDb, preset.levelDb, grids.preset),
    ...preset.routing.flatMap((route) => {
      const was = before.routing.find(({ id }) => id === route.id);
      if (was === undefined) return [];
      const at = `presets/${preset.id}/routing/${route.id}/gainDb`;
      const name = `${about}, crossing to ${words.channel(route.channelId)}`;
      return item(at, name, was.gainDb, route.gainDb, grids.route);
    }),
  ];
}
