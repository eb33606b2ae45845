import { presetUse, setDifferences } from "../../../migrate/plan/index.ts";
import type { Configuration, FittedItem, FittingOption, UnitProfile } from "../../../model/index.ts";
import { askFit, FITTING, type FitContext, type FitStage } from "./ask.ts";
import { type HouseList, itemWords, labelsOf, newItems, withoutItems } from "./new-parts.ts";

/**
 * Where the unit holds fewer items than the screen would have: asks what is to go, the screen's own or what the standard
 * brings. An EQ set of the screen is never among what may go: it was found by measuring.
 */
export function withinCount(context: FitContext, target: Configuration, list: HouseList): FitStage {
  const { screen, profile } = context;
  const max = MOST[list](profile);
  const excess = target[list].length - max;
  const added = newItems(screen, target, list);
  if (excess <= 0 || added.length === 0) return { configuration: target, items: [], verdicts: [] };
  const last = added.slice(-Math.min(excess, added.length));
  const own = candidatesFor(context, target, list);
  const proposed = own.slice(0, excess);
  const alike =
    list === "equalizations"
      ? mostAlike(
          target,
          profile,
          last.map(({ id }) => id),
        )
      : [];
  const options: readonly FittingOption[] = [
    ...(proposed.length === excess
      ? [
          {
            id: "as-proposed",
            words: `Leave out ${labelsOf(proposed)}.`,
            consequence: proposed.map(({ label, loss }) => `'${label}': ${loss}`).join(" "),
          },
        ]
      : []),
    ...(own.length > excess
      ? [
          {
            id: "own-choice",
            words: `Leave out ${excess} other of the screen's own.`,
            consequence: "The answer names them.",
            candidates: own.map(({ id }) => id),
            idsCount: excess,
          },
        ]
      : []),
    ...(alike.length > 0
      ? [
          {
            id: "most-alike",
            words: `Do not add ${labelsOf(last)}; its presets use the screen's own set that sounds most alike.`,
            consequence: alike.map(({ words }) => words).join(" "),
          },
        ]
      : []),
    {
      id: "not-added",
      words: `Do not add ${labelsOf(last)}.`,
      consequence: list === "presets" ? "The screen stays without it." : "What uses it is asked about next.",
    },
  ];
  const verdict = askFit(context, {
    place: `${FITTING}/${list}/count`,
    words: `Number of ${THINGS[list]}`,
    question: `The unit holds ${max} ${THINGS[list]}; with ${labelsOf(added)} there would be ${target[list].length}. What is left out?`,
    options,
    recommended: options[0]!.id,
  });
  const { isOpen } = verdict;
  const chosen = verdict.option.id;
  const gone =
    chosen === "as-proposed"
      ? proposed.map(({ id }) => id)
      : chosen === "own-choice"
        ? verdict.ids
        : last.map(({ id }) => id);
  const insteadOf = (id: string) => {
    const other = chosen === "most-alike" ? alike.find((item) => item.id === id) : undefined;
    return other === undefined ? "" : ` ${other.words}`;
  };
  const items = (target[list] as readonly { readonly id: string; readonly label: string }[])
    .filter(({ id }) => gone.includes(id))
    .map(
      (item): FittedItem => ({
        place: `${list}/${item.id}`,
        words: itemWords(list, item),
        outcome: isOpen ? "asks" : "left-out",
        text: isOpen
          ? "Waits for what the unit has room for."
          : `Left out: the unit holds ${max}. By decision.${insteadOf(item.id)}`,
        numbers: { max, wanted: target[list].length },
      }),
    );
  const without = withoutItems(target, list, new Set(gone));
  if (chosen !== "most-alike") return { configuration: without, items, verdicts: [verdict] };
  return {
    configuration: withSetsReplaced(without, alike),
    items: [...items, ...replacedSets(without, alike, isOpen)],
    verdicts: [verdict],
  };
}

/** Presets that use another set than the standard says. */
function replacedSets(
  { presets }: Configuration,
  alike: readonly Alike[],
  isOpen: boolean,
): readonly FittedItem[] {
  return presets.flatMap((preset): readonly FittedItem[] => {
    const instead = alike.find(({ id }) => id === preset.equalizationId);
    if (instead === undefined) return [];
    return [
      {
        place: `presets/${preset.id}/equalizationId`,
        words: itemWords("presets", preset),
        outcome: isOpen ? "asks" : "moved",
        text: isOpen ? "Waits for what the unit has room for." : `By decision: ${instead.words}`,
        numbers: {},
      },
    ];
  });
}

const MOST: Readonly<Record<HouseList, (profile: UnitProfile) => number>> = {
  sources: ({ sources }) => sources.max,
  equalizations: ({ equalizations }) => equalizations.max,
  presets: ({ presets }) => Math.min(presets.max, presets.slotMax - presets.slotMin + 1),
  automation: ({ automation }) => automation.max,
};

const THINGS: Readonly<Record<HouseList, string>> = {
  sources: "sources",
  equalizations: "EQ sets",
  presets: "presets",
  automation: "automation items",
};

interface Candidate {
  readonly id: string;
  readonly label: string;
  readonly loss: string;
}

/** The screen's own items that the standard does not hold, the one that is missed least first. */
function candidatesFor(
  { screen, standard }: FitContext,
  target: Configuration,
  list: HouseList,
): readonly Candidate[] {
  if (list === "sources" || list === "equalizations") return [];
  const rule = standard.lists.get(list)?.[0];
  const held = (id: string) =>
    rule !== undefined && rule.hold.kind !== "left-to-screen" && rule.hold.items.has(id);
  const own = (target[list] as readonly { readonly id: string; readonly label: string }[]).filter(
    ({ id }) => !held(id) && screen[list].some((item) => item.id === id),
  );
  if (list === "automation") {
    return [...own]
      .reverse()
      .map(({ id, label }) => ({ id, label, loss: "Its trigger does nothing any more." }));
  }
  return [...own]
    .reverse()
    .map(({ id, label }) => {
      const { weight, words } = presetUse(target.presets.find((preset) => preset.id === id)!, target);
      return { id, label, loss: words, weight };
    })
    .sort((a, b) => a.weight - b.weight);
}

interface Alike {
  readonly id: string;
  readonly insteadId: string;
  readonly words: string;
}

/** For each EQ set the screen's own that sounds most alike. */
function mostAlike(target: Configuration, profile: UnitProfile, ids: readonly string[]): readonly Alike[] {
  const difference = setDifferences(target, profile);
  return ids.flatMap((id) => {
    const set = target.equalizations.find((item) => item.id === id)!;
    const [nearest] = target.equalizations
      .filter((other) => !ids.includes(other.id))
      .map((other) => ({ other, rmsDb: difference(id, other.id) }))
      .sort((a, b) => a.rmsDb - b.rmsDb);
    if (nearest === undefined) return [];
    const words = `'${nearest.other.label}' in place of '${set.label}': ${nearest.rmsDb.toFixed(1)} dB rms apart.`;
    return [{ id, insteadId: nearest.other.id, words }];
  });
}

function withSetsReplaced(configuration: Configuration, alike: readonly Alike[]): Configuration {
  const instead = new Map(alike.map(({ id, insteadId }) => [id, insteadId]));
  return {
    ...configuration,
    presets: configuration.presets.map((preset) => ({
      ...preset,
      equalizationId: instead.get(preset.equalizationId) ?? preset.equalizationId,
    })),
  };
}
