import type { Configuration, FittedItem, Preset } from "../../../model/index.ts";
import { printValue } from "../../../words/index.ts";
import type { HeldLeaf } from "../compile.ts";
import { ruleAt } from "../rule-at.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";
import { itemWords, withItem, withoutItems } from "./new-parts.ts";

/**
 * Gives every preset a slot of its own that the unit has. A preset that the standard puts into a slot goes there; whoever
 * is in it by the screen's own choice is asked about. What recalls a preset names the preset, so it follows; a person or a
 * system that recalls by number has to learn the new one, which is said.
 */
export function withinSlots(context: FitContext, target: Configuration): FitStage {
  let stage: FitStage = { configuration: target, items: [], verdicts: [] };
  const settled = new Set<string>();
  for (;;) {
    const clash = firstClash(context, stage.configuration, settled);
    if (clash === undefined) return { ...stage, items: [...stage.items, ...moves(context, stage)] };
    const verdict = askAbout(context, stage.configuration, clash);
    const { configuration, items } = afterVerdict(context, stage.configuration, clash, verdict);
    stage = {
      configuration,
      items: [...stage.items, ...items],
      verdicts: [...stage.verdicts, verdict],
    };
    settled.add(clash.preset.id);
  }
}

/** A preset that cannot be where it is. */
interface Clash {
  readonly preset: Preset;
  /** Who has the slot by the standard; absent: the unit has no such slot. */
  readonly holder?: Preset;
  /** Where it could go. */
  readonly free: number | undefined;
}

function firstClash(
  context: FitContext,
  { presets }: Configuration,
  settled: ReadonlySet<string>,
): Clash | undefined {
  const isHeld = ({ id }: Preset) => slotRule(context, id) !== undefined;
  const { slotMin, slotMax } = context.profile.presets;
  const outside = presets.find(({ id, slot }) => !settled.has(id) && (slot < slotMin || slot > slotMax));
  if (outside !== undefined) return { preset: outside, free: freeSlot(context, presets, outside) };
  for (const holder of presets) {
    const others = presets.filter(({ id, slot }) => id !== holder.id && slot === holder.slot);
    // Of two that share a slot, the one that the standard put there stays, else the one that was there before.
    const stays = isHeld(holder) || (!others.some(isHeld) && isWhereItWas(context, holder));
    const preset = stays ? others.find(({ id }) => !settled.has(id)) : undefined;
    if (preset !== undefined) return { preset, holder, free: freeSlot(context, presets, preset, holder) };
  }
  return undefined;
}

function slotRule({ standard }: FitContext, presetId: string): HeldLeaf | undefined {
  const rule = ruleAt(standard.leaves, "presets[].slot", ["presets", presetId, "slot"]) as
    | HeldLeaf
    | undefined;
  return rule?.hold.kind === "left-to-screen" ? undefined : rule;
}

function slotBefore({ screen }: FitContext, presetId: string): number | undefined {
  return screen.presets.find(({ id }) => id === presetId)?.slot;
}

function isWhereItWas(context: FitContext, { id, slot }: Preset): boolean {
  return slotBefore(context, id) === slot;
}

/** The slot that who takes its place leaves free, else the lowest free one. */
function freeSlot(
  context: FitContext,
  presets: readonly Preset[],
  preset: Preset,
  holder?: Preset,
): number | undefined {
  const { slotMin, slotMax } = context.profile.presets;
  const taken = new Set(presets.filter(({ id }) => id !== preset.id).map(({ slot }) => slot));
  const left = holder && slotBefore(context, holder.id);
  if (left !== undefined && left >= slotMin && left <= slotMax && !taken.has(left)) return left;
  for (let slot = slotMin; slot <= slotMax; slot += 1) if (!taken.has(slot)) return slot;
  return undefined;
}

function askAbout(context: FitContext, target: Configuration, { preset, holder, free }: Clash): FitVerdict {
  const isNew = slotBefore(context, preset.id) === undefined;
  const words = itemWords("presets", preset);
  const recalls = recallWords(target, preset);
  const cause =
    holder === undefined
      ? `The unit has no slot ${preset.slot} (${context.profile.presets.slotMin} to ${context.profile.presets.slotMax}).`
      : `The standard has '${holder.label}' in slot ${holder.slot}, where this screen has '${preset.label}'.`;
  const options = [
    ...(free === undefined
      ? []
      : [
          {
            id: "move",
            words: `'${preset.label}' goes to slot ${free}.`,
            consequence: `${recalls} Whoever recalls it by its number has to learn ${free}.`,
          },
        ]),
    ...(holder === undefined
      ? []
      : [
          {
            id: "stay",
            words: `'${preset.label}' stays in slot ${preset.slot}.`,
            consequence: `'${holder.label}' goes elsewhere, so the screen is off the standard in that.`,
          },
        ]),
    {
      id: isNew ? "not-added" : "leave-out",
      words: isNew ? `'${preset.label}' is not added.` : `'${preset.label}' is left out.`,
      consequence: isNew
        ? "The screen stays without it."
        : recalls.replace("and follows", "and is asked about"),
    },
  ];
  return askFit(context, {
    place: `${FITTING}/presets/${preset.id}/slot`,
    words,
    question: `${cause} What becomes of '${preset.label}'?`,
    options,
    recommended: options[0]!.id,
  });
}

/** What recalls a preset by itself, in words. */
function recallWords({ automation, operation }: Configuration, { id }: Preset): string {
  const items = automation.filter(({ action }) => action.kind === "recall-preset" && action.presetId === id);
  const uses = [
    ...(operation.startPresetId === id ? ["the unit's start"] : []),
    ...(operation.nonSync?.presetId === id ? ["music between shows"] : []),
    ...(operation.paging?.presetId === id ? ["paging"] : []),
    ...items.map(({ label, trigger }) => `'${label}' (${trigger.kind})`),
  ];
  if (uses.length === 0) return "Nothing in the unit recalls it.";
  const shown = uses.slice(0, MOST_NAMED).join(", ");
  const more = uses.length - MOST_NAMED;
  return `It is recalled by ${shown}${more > 0 ? ` and ${more} more` : ""}, which names the preset and follows.`;
}

const MOST_NAMED = 4;

function afterVerdict(
  context: FitContext,
  target: Configuration,
  { preset, holder, free }: Clash,
  { option, isOpen }: FitVerdict,
): { readonly configuration: Configuration; readonly items: readonly FittedItem[] } {
  const outcome = option.id;
  if (outcome === "move") {
    return { configuration: withItem(target, "presets", { ...preset, slot: free! }), items: [] };
  }
  if (outcome === "stay") {
    const other = freeSlot(context, target.presets, holder!);
    const elsewhere = slotBefore(context, holder!.id) ?? other;
    if (elsewhere !== undefined) {
      const slot = target.presets.some((item) => item.slot === elsewhere) ? other : elsewhere;
      if (slot !== undefined) {
        return { configuration: withItem(target, "presets", { ...holder!, slot }), items: [] };
      }
    }
    return without(context, target, holder!, !isOpen);
  }
  return without(context, target, preset, !isOpen);
}

function without(context: FitContext, target: Configuration, preset: Preset, isDecided: boolean) {
  const item: FittedItem = {
    place: `presets/${preset.id}`,
    words: itemWords("presets", preset),
    outcome: isDecided ? "left-out" : "asks",
    text: isDecided ? "Left out: it has no slot. By decision." : "Waits for a slot.",
    numbers: {
      slot: preset.slot,
      slots: context.profile.presets.slotMax - context.profile.presets.slotMin + 1,
    },
  };
  return { configuration: withoutItems(target, "presets", new Set([preset.id])), items: [item] };
}

/** Presets that are in another slot than the screen had them or the standard wants them. */
function moves(context: FitContext, { configuration, verdicts }: FitStage): readonly FittedItem[] {
  const asked = new Set(verdicts.map(({ question }) => question.place.split("/")[2]));
  const open = verdicts.some(({ isOpen }) => isOpen);
  return configuration.presets.flatMap((preset): readonly FittedItem[] => {
    const before = slotBefore(context, preset.id);
    const rule = slotRule(context, preset.id);
    const wanted = rule?.hold.kind === "exactly" ? rule.hold.value : undefined;
    if (before === preset.slot || (wanted === preset.slot && before === undefined)) return [];
    const isByDecision = asked.has(preset.id) || (wanted !== undefined && wanted !== preset.slot);
    if (!isByDecision && before === undefined) return [];
    const now = printValue("presets[].slot", preset.slot);
    return [
      {
        place: `presets/${preset.id}/slot`,
        words: itemWords("presets", preset),
        outcome: open && isByDecision ? "asks" : "moved",
        text: `${before === undefined ? `In slot ${now}` : `From slot ${before} to slot ${now}`}. ${recallWords(configuration, preset)}`,
        numbers: { ...(before !== undefined && { fromSlot: before }), toSlot: preset.slot },
        todo: `Tell whoever recalls presets by number: '${preset.label}' is in slot ${now}${before === undefined ? "" : `, no longer in ${before}`}.`,
      },
    ];
  });
}
