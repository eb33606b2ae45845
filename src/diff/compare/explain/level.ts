import type { Severity } from "../../../base/findings/index.ts";
import { type ChangeEffect, fieldAt } from "../../../model/index.ts";
import { printLevel, printLevelChange, raisedBy } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import { crossingEffects } from "../crossing.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { loudspeakerFed, type Scene, subjectAt } from "../scene.ts";
import { at, numbersOf } from "../select.ts";

const FIELDS = [
  "channels[].levelDb",
  "presets[].levelDb",
  "outputs[].gainDb",
  "outputs[].mix[].gainDb",
  "presets[].routing[].gainDb",
  "sources[].channels[].gainDb",
] as const;

/** A rise of this much can hurt ears or drivers; a change of that much is likely to be noticed. In dB. */
const DANGEROUS_RISE_DB = 10;
const AUDIBLE_DB = 1;

/** Levels and gains. Equal trims at several places are one finding. */
export const explainLevel: Explainer = (scene, open) => ({
  drafts: at(open, ...FIELDS).flatMap((change) => {
    const numbers = numbersOf(change);
    return numbers === undefined ? [] : [draftOf(scene, change, numbers)];
  }),
});

function draftOf(scene: Scene, change: Change, [before, after]: readonly [number, number]): Draft {
  const levelDb = after - before;
  const label = fieldAt(change.field)?.label ?? "level";
  return {
    code: "level/changed",
    kind: levelDb >= DANGEROUS_RISE_DB ? "protection" : "sound",
    severity: severityOf(levelDb),
    subject: subjectAt(scene, change.path.slice(0, -1)),
    alike: `${change.field} ${levelDb.toFixed(3)}`,
    words: `${label[0]!.toUpperCase()}${label.slice(1)} ${raisedBy(levelDb)}${seatWords(scene, change)}.`,
    before: printLevel(before),
    after: printLevel(after),
    effects: [{ kind: "level", levelDb }, ...wholeLoudspeaker(scene, change)],
    ...(levelDb >= DANGEROUS_RISE_DB
      ? { remedy: "Lower the fader before anything plays; hearing and drivers are at risk." }
      : {}),
    causes: [change],
  };
}

function severityOf(levelDb: number): Severity {
  if (levelDb >= DANGEROUS_RISE_DB) return "error";
  return Math.abs(levelDb) >= AUDIBLE_DB ? "warning" : "advice";
}

/** What a gain of one way does to the loudspeaker as a whole; nothing where the way is all of it. */
function wholeLoudspeaker(scene: Scene, { field, path }: Change): readonly ChangeEffect[] {
  if (!field.startsWith("outputs[]")) return [];
  const loudspeakerId = loudspeakerFed(scene, path[1]!);
  const loudspeaker = scene.after.loudspeakers.find(({ id }) => id === loudspeakerId);
  if (loudspeaker === undefined || loudspeaker.ways.length < 2) return [];
  return crossingEffects(scene, loudspeakerId).filter(({ kind }) => kind === "response");
}

function seatWords(scene: Scene, change: Change): string {
  const response = wholeLoudspeaker(scene, change).find((effect) => effect.kind === "response");
  if (response === undefined || response.kind !== "response") return "";
  return `; the whole loudspeaker at the seats ${printLevelChange(Math.round(response.levelDbC * 10) / 10)}, C-weighted`;
}
