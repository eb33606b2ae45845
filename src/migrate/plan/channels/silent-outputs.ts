import type { Configuration } from "../../../model/index.ts";
import { outcomeOf, type StepItem, type Verdict } from "../step.ts";
import { place, wordsOf } from "../words.ts";

/**
 * The configuration without outputs that have nothing to play any more because their program channels went, and without
 * loudspeakers that have no output left: their connectors serve others.
 */
export function withoutSilentOutputs(
  old: Configuration,
  configuration: Configuration,
  verdict: Verdict,
): { readonly next: Configuration; readonly items: readonly StepItem[] } {
  const played = new Set(old.outputs.filter(({ mix }) => mix.length > 0).map(({ id }) => id));
  const silent = configuration.outputs.filter(
    ({ id, mix, feeds }) => mix.length === 0 && played.has(id) && feeds.kind !== "spare",
  );
  if (silent.length === 0) return { next: configuration, items: [] };
  const outputs = configuration.outputs.filter((output) => !silent.includes(output));
  const fed = (list: Configuration["outputs"]) =>
    new Set(list.flatMap(({ feeds }) => (feeds.kind === "loudspeaker" ? [feeds.loudspeakerId] : [])));
  const [before, after] = [fed(silent), fed(outputs)];
  const gone = [...before].filter((id) => !after.has(id));
  const words = wordsOf(old);
  const names = silent.map((output) => words.output(output)).join(", ");
  return {
    next: {
      ...configuration,
      outputs,
      loudspeakers: configuration.loudspeakers.filter(({ id }) => !gone.includes(id)),
    },
    items: [
      {
        outcome: outcomeOf(verdict, "lost"),
        place: place(`outputs/${silent[0]!.id}`, "Outputs with nothing to play"),
        words: `${names}: nothing is left to play there, so the connector serves others and the amplifier stays off.`,
        claimsRest: [...silent.map(({ id }) => `outputs/${id}`), ...gone.map((id) => `loudspeakers/${id}`)],
        questionId: verdict.question.id,
      },
    ],
  };
}
