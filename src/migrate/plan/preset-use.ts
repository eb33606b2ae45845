import type { Configuration, Preset } from "../../model/index.ts";

/** Weights of what calls a preset: an order of preference, common practice, no source. */
const WEIGHT = { start: 100, paging: 80, nonSync: 60, automation: 10, onlyOfItsKind: 30 } as const;

/** How much a preset is needed, and by what. */
export function presetUse(
  preset: Preset,
  { operation, automation, presets: all }: Configuration,
): { readonly weight: number; readonly words: string } {
  const recalls = automation.filter(
    ({ action }) => action.kind === "recall-preset" && action.presetId === preset.id,
  ).length;
  const twins = all.filter(
    (other) => other.id !== preset.id && other.sourceId === preset.sourceId && other.format === preset.format,
  );
  const uses = [
    { on: operation.startPresetId === preset.id, weight: WEIGHT.start, words: "the unit starts with it" },
    { on: operation.paging?.presetId === preset.id, weight: WEIGHT.paging, words: "paging uses it" },
    {
      on: operation.nonSync?.presetId === preset.id,
      weight: WEIGHT.nonSync,
      words: "music between shows uses it",
    },
    {
      on: recalls > 0,
      weight: recalls * WEIGHT.automation,
      words: recalls === 1 ? "one automation item recalls it" : `${recalls} automation items recall it`,
    },
    {
      on: twins.length === 0,
      weight: WEIGHT.onlyOfItsKind,
      words: `no other plays ${preset.format} from this source`,
    },
  ].filter(({ on }) => on);
  const words = uses.map((use) => use.words);
  if (twins.length > 0) {
    words.push(`'${twins[0]!.label}' plays the same format from the same source`);
  }
  return {
    weight: uses.reduce((sum, { weight }) => sum + weight, 0),
    words: `${capitalized(words.join(", "))}.`,
  };
}

function capitalized(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
