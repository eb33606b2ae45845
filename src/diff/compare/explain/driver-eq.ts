import type { EqBand, ResponseEffect } from "../../../model/index.ts";
import { counted, filterInComparison } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import { crossingEffects } from "../crossing.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { isQuietEffect, responseWords } from "../response-words.ts";
import { loudspeakerFed, outputIn, type Scene, subjectAt } from "../scene.ts";
import { byItem, within } from "../select.ts";

/** More filters than these are not told one by one: the curve says it. */
const FILTERS_TOLD = 3;
const AUDIBLE_DB = 1.5;
/** A way that turns its phase by so much no longer adds up with its neighbours as before. Common practice, no source. */
const AUDIBLE_PHASE_DEG = 20;

/** Driver EQ and FIR filters of outputs: one finding an output, with what became of its response. */
export const explainDriverEq: Explainer = (scene, open) => {
  const changes = [...within(open, "outputs[].filters"), ...within(open, "outputs[].fir")];
  const drafts: Draft[] = [];
  const quiet: Change[] = [];
  for (const causes of byItem(changes, 2)) {
    const draft = outputChange(scene, causes);
    if (draft === "quiet") quiet.push(...causes);
    else drafts.push(draft);
  }
  return { drafts, quiet };
};

function outputChange(scene: Scene, causes: readonly Change[]): Draft | "quiet" {
  const id = causes[0]!.path[1]!;
  const subject = subjectAt(scene, ["outputs", id]);
  const response = scene.sound.driverEq(id, `${subject.words}, driver EQ`);
  const crossings = crossingEffects(scene, loudspeakerFed(scene, id)).filter(
    ({ kind }) => kind === "crossing",
  );
  const small = response !== undefined && isQuietEffect(response.effect, scene.tolerances);
  if (small && crossings.length === 0) return "quiet";
  const told = changedFilters(scene, id, causes);
  const words = response === undefined ? "" : `: ${responseWords(response.effect)}`;
  return {
    code: "driver-eq/changed",
    kind: "sound",
    severity: response === undefined || isAudible(response.effect) ? "warning" : "advice",
    subject,
    alike: JSON.stringify([told.before, told.after, response?.effect]),
    words: `Driver EQ changed in ${told.count}${words}.`,
    ...(told.before === undefined ? {} : { before: told.before, after: told.after! }),
    effects: [...(response === undefined ? [] : [response.effect]), ...crossings],
    ...(response === undefined ? {} : { curves: [response.curve] }),
    causes,
  };
}

function isAudible({ maxDb, phaseDeg = 0 }: ResponseEffect): boolean {
  return Math.abs(maxDb) >= AUDIBLE_DB || phaseDeg >= AUDIBLE_PHASE_DEG;
}

function changedFilters(scene: Scene, id: string, causes: readonly Change[]) {
  const { before, after } = outputIn(scene, id);
  const ids = byItem(within(causes, "outputs[].filters[]"), 4).map((group) => group[0]!.path[3]!);
  const fir = within(causes, "outputs[].fir").length > 0;
  const count = [
    ...(ids.length > 0 ? [counted(ids.length, "filter")] : []),
    ...(fir ? ["the FIR filter"] : []),
  ].join(" and ");
  if (fir || ids.length === 0 || ids.length > FILTERS_TOLD) return { count: count || "its filters" };
  const told = (filters: readonly EqBand[] | undefined): string =>
    ids
      .map((one) => filters?.find((band) => band.id === one))
      .map((band) => (band === undefined ? "none" : filterInComparison(band)))
      .join("; ");
  return { count, before: told(before?.filters), after: told(after?.filters) };
}
