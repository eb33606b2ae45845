import type { Configuration } from "../../../model/index.ts";
import { plugIn } from "../sources/plug-in.ts";
import { withinChannels, withinCount } from "../sources/within-limits.ts";
import type { Step, StepItem } from "../step.ts";
import { place } from "../words.ts";

/** Sources and the input connectors that their channels come in by. */
export const sources: Step = {
  name: "sources",
  run: (context) => {
    const counted = withinCount(context);
    const sized = withinChannels({ ...context, next: counted.next });
    const plugged = plugIn({ ...context, next: sized.next });
    const orphans = withoutSource(context.old, plugged.next);
    return {
      next: orphans.next,
      items: [...counted.items, ...sized.items, ...plugged.items, ...orphans.items],
      questions: [...counted.questions, ...sized.questions, ...plugged.questions],
      cables: plugged.cables,
    };
  },
};

/** Presets whose source is gone go with it. */
function withoutSource(
  old: Configuration,
  next: Configuration,
): { readonly next: Configuration; readonly items: readonly StepItem[] } {
  const there = new Set(next.sources.map(({ id }) => id));
  const gone = next.presets.filter(({ sourceId }) => !there.has(sourceId));
  if (gone.length === 0) return { next, items: [] };
  const labels = new Map(old.sources.map(({ id, label }) => [id, label]));
  return {
    next: { ...next, presets: next.presets.filter((preset) => !gone.includes(preset)) },
    items: gone.map((preset) => ({
      outcome: "lost",
      place: place(`presets/${preset.id}`, `Preset '${preset.label}'`),
      words: `Preset '${preset.label}' goes, because its source '${labels.get(preset.sourceId) ?? preset.sourceId}' is left out.`,
      claimsRest: [`presets/${preset.id}`],
    })),
  };
}
