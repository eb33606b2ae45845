import type { Configuration, FittedItem, FittingOption, Preset } from "../../../model/index.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";
import { withPartsKept } from "./house-parts.ts";
import { itemWords, withItem, withoutItems } from "./new-parts.ts";

/*
 * What a preset needs of the screen: a source with its channels, program channels, an EQ set. Where the standard names
 * something that this screen does not have, the screen's own are offered. Nothing is matched by guessing.
 */

/** Presets whose source, source channels or program channels the screen lacks. */
export function withFeeds(context: FitContext, target: Configuration): FitStage {
  return forPresets(context, target, {
    part: "source",
    lacks: missingFeeds,
    options: (preset, configuration) =>
      configuration.presets
        .filter(
          (other) =>
            other.id !== preset.id &&
            other.format === preset.format &&
            isOwn(context, other) &&
            missingFeeds(other, configuration).length === 0,
        )
        .slice(0, MOST_OFFERED)
        .map((other) => ({
          option: {
            id: `as-${other.id}`,
            words: `Source and routing as '${other.label}' has them.`,
            consequence: `It plays from '${labelIn(configuration.sources, other.sourceId)}' by ${other.routing.length} crossings.`,
          },
          preset: { ...preset, sourceId: other.sourceId, routing: other.routing },
        })),
    asBefore: (preset, before) => ({ ...preset, sourceId: before.sourceId, routing: before.routing }),
  });
}

/** Presets whose EQ set the screen lacks. */
export function withEqualizations(context: FitContext, target: Configuration): FitStage {
  return forPresets(context, target, {
    part: "equalization",
    lacks: ({ equalizationId }, { equalizations }) =>
      equalizations.some(({ id }) => id === equalizationId) ? [] : [`the EQ set '${equalizationId}'`],
    options: (preset, configuration) => {
      const uses = (setId: string) =>
        configuration.presets.filter((other) => other.id !== preset.id && other.equalizationId === setId);
      const likeness = (setId: string) =>
        uses(setId).reduce((sum, other) => sum + (other.format === preset.format ? 2 : 1), 0);
      return [...configuration.equalizations]
        .sort((a, b) => likeness(b.id) - likeness(a.id))
        .slice(0, MOST_OFFERED)
        .map((set) => ({
          option: {
            id: `use-${set.id}`,
            words: `It uses the screen's '${set.label}'.`,
            consequence: `${usedBy(uses(set.id))} The standard's curve is not on this screen.`,
          },
          preset: { ...preset, equalizationId: set.id },
        }));
    },
    asBefore: (preset, before) => ({ ...preset, equalizationId: before.equalizationId }),
  });
}

const MOST_OFFERED = 8;

function usedBy(presets: readonly Preset[]): string {
  if (presets.length === 0) return "No other preset uses it.";
  const more = presets.length - 2;
  return `'${presets[0]!.label}'${presets.length > 1 ? `, '${presets[1]!.label}'` : ""}${more > 0 ? ` and ${more} more` : ""} ${presets.length === 1 ? "uses" : "use"} it too.`;
}

interface Need {
  /** Last part of the question's key. */
  readonly part: string;
  /** What the screen lacks of it, in words. */
  readonly lacks: (preset: Preset, configuration: Configuration) => readonly string[];
  readonly options: (
    preset: Preset,
    configuration: Configuration,
  ) => readonly { readonly option: FittingOption; readonly preset: Preset }[];
  /** The preset with the screen's own part, where the screen had the preset. */
  readonly asBefore: (preset: Preset, before: Preset) => Preset;
}

function forPresets(context: FitContext, target: Configuration, need: Need): FitStage {
  let configuration = target;
  const items: FittedItem[] = [];
  const verdicts: FitVerdict[] = [];
  for (const preset of target.presets) {
    const missing = need.lacks(preset, configuration);
    const before = context.screen.presets.find(({ id }) => id === preset.id);
    // What was missing already is for 'validate' to find, and nothing that the standard brought.
    if (missing.length === 0 || (before !== undefined && need.lacks(before, context.screen).length > 0))
      continue;
    const offered = need.options(preset, configuration);
    const stay =
      before && staying(context, configuration, { before, preset: need.asBefore(preset, before), need });
    const verdict = askFit(context, questionOf(preset, { need, missing, offered, stay }));
    verdicts.push(verdict);
    const taken = offered.find(({ option }) => option.id === verdict.option.id);
    const { isOpen } = verdict;
    const at = { place: `presets/${preset.id}`, words: itemWords("presets", preset), numbers: {} };
    if (taken !== undefined) {
      configuration = withItem(configuration, "presets", taken.preset);
      const text = isOpen
        ? `Waits: the screen lacks ${missing.join(", ")}.`
        : `${taken.option.words} By decision.`;
      items.push({ ...at, outcome: isOpen ? "asks" : "moved", text });
    } else if (before === undefined || verdict.option.id === "leave-out") {
      configuration = withoutItems(configuration, "presets", new Set([preset.id]));
      items.push({
        ...at,
        outcome: isOpen ? "asks" : "left-out",
        text: isOpen
          ? `Waits: the screen lacks ${missing.join(", ")}.`
          : `${before === undefined ? "Not added" : "Left out"}: the screen lacks ${missing.join(", ")}. By decision.`,
      });
    } else {
      configuration = stay!.configuration;
      items.push({
        ...at,
        outcome: isOpen ? "asks" : "left-out",
        text: `${isOpen ? "Waits" : "Stays as the screen has it"}: the screen lacks ${missing.join(", ")}.`,
      });
    }
  }
  return { configuration, items, verdicts };
}

/** What it is for a preset to stay as the screen has it. */
interface Staying {
  readonly configuration: Configuration;
  /** Whether what it needs goes by the standard, and has to stay with it. */
  readonly needsWhatGoes: boolean;
}

function staying(
  { screen }: FitContext,
  configuration: Configuration,
  { before, preset, need }: { readonly before: Preset; readonly preset: Preset; readonly need: Need },
): Staying {
  const stays = withItem(configuration, "presets", preset);
  const needsWhatGoes = need.lacks(preset, stays).length > 0;
  const kept = needsWhatGoes ? [`sources/${before.sourceId}`] : [];
  return { configuration: withPartsKept(screen, stays, new Set(kept)), needsWhatGoes };
}

function questionOf(
  preset: Preset,
  {
    need,
    missing,
    offered,
    stay,
  }: {
    readonly need: Need;
    readonly missing: readonly string[];
    readonly offered: readonly { readonly option: FittingOption }[];
    readonly stay: Staying | undefined;
  },
) {
  const shown =
    missing.slice(0, 3).join(", ") + (missing.length > 3 ? ` and ${missing.length - 3} more` : "");
  const question =
    stay?.needsWhatGoes === true
      ? `'${preset.label}' needs ${shown}, which the standard does without. What becomes of it?`
      : `The standard's '${preset.label}' needs ${shown}, which this screen does not have. What does it use?`;
  return {
    place: `${FITTING}/presets/${preset.id}/${need.part}`,
    words: itemWords("presets", preset),
    question,
    options: [...offered.map(({ option }) => option), ...ownOptions(stay)],
  };
}

function ownOptions(stay: Staying | undefined): readonly FittingOption[] {
  const off = "The screen is off the standard in that.";
  if (stay === undefined)
    return [{ id: "not-added", words: "It is not added.", consequence: "The screen stays without it." }];
  if (!stay.needsWhatGoes) return [{ id: "stay", words: "It stays as the screen has it.", consequence: off }];
  return [
    { id: "stay", words: "It stays as the screen has it, with what it needs.", consequence: off },
    { id: "leave-out", words: "It is left out.", consequence: "What recalls it is asked about next." },
  ];
}

function missingFeeds(
  { sourceId, routing }: Preset,
  { sources, channels }: Configuration,
): readonly string[] {
  const source = sources.find(({ id }) => id === sourceId);
  const sourceChannels = new Set(source?.channels.map(({ id }) => id));
  const programChannels = new Set(channels.map(({ id }) => id));
  const lacking = new Set<string>();
  if (source === undefined) lacking.add(`the source '${sourceId}'`);
  for (const route of routing) {
    if (source !== undefined && !sourceChannels.has(route.sourceChannelId)) {
      lacking.add(`the source channel '${route.sourceChannelId}'`);
    }
    if (!programChannels.has(route.channelId)) lacking.add(`the program channel '${route.channelId}'`);
  }
  return [...lacking];
}

function isOwn({ screen }: FitContext, { id }: Preset): boolean {
  return screen.presets.some((preset) => preset.id === id);
}

function labelIn(list: readonly { readonly id: string; readonly label: string }[], id: string): string {
  return list.find((item) => item.id === id)?.label ?? id;
}
