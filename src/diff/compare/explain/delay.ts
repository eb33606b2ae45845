import { framesFromMs, metresFromMs } from "../../../base/units/index.ts";
import { fieldAt } from "../../../model/index.ts";
import { laterBy, printMs, printNumber } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import { crossingEffects } from "../crossing.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { loudspeakerFed, type Scene, subjectAt } from "../scene.ts";
import { at, numbersOf } from "../select.ts";

const FIELDS = [
  "channels[].delayMs",
  "outputs[].delayMs",
  "presets[].delayMs",
  "sources[].latencyMs",
  "screen.videoLatencyMs",
];

/** Delays that move the whole program against the picture. */
const AGAINST_PICTURE = ["presets[].delayMs", "sources[].latencyMs", "screen.videoLatencyMs"];

/** Frame rate of a digital cinema package as it is mostly made (SMPTE ST 428-11: 24 among others). */
const FRAMES_PER_SECOND = 24;

/** Less against the picture is not said in frames. */
const FRAMES_TOLD = 0.5;

/** A change of timing between loudspeakers of this much, in ms, moves what is heard; common practice, no source. */
const AUDIBLE_MS = 1;

/** Delays: in ms and metres, against the picture in frames, between ways as phase at the crossover. */
export const explainDelay: Explainer = (scene, open) => ({
  drafts: at(open, ...FIELDS).flatMap((change) => {
    const numbers = numbersOf(change);
    return numbers === undefined ? [] : [draftOf(scene, change, numbers)];
  }),
});

function draftOf(scene: Scene, change: Change, [before, after]: readonly [number, number]): Draft {
  const delayMs = after - before;
  const temperatureC = scene.after.screen.temperatureC;
  const label = fieldAt(change.field)?.label ?? "delay";
  const output = change.field === "outputs[].delayMs" ? change.path[1] : undefined;
  const crossings =
    output === undefined
      ? []
      : crossingEffects(scene, loudspeakerFed(scene, output)).filter(({ kind }) => kind === "crossing");
  const frames = Math.abs(framesFromMs(delayMs, FRAMES_PER_SECOND));
  const picture =
    AGAINST_PICTURE.includes(change.field) && frames >= FRAMES_TOLD
      ? `, ${printNumber(frames, 1)} frames at ${FRAMES_PER_SECOND} frames a second`
      : "";
  return {
    code: AGAINST_PICTURE.includes(change.field) ? "delay/against-picture" : "delay/changed",
    kind: "sound",
    severity: Math.abs(delayMs) >= AUDIBLE_MS || crossings.length > 0 ? "warning" : "advice",
    subject: subjectAt(scene, change.path.slice(0, -1)),
    alike: `${change.field} ${delayMs.toFixed(3)}`,
    words: `${label[0]!.toUpperCase()}${label.slice(1)} ${laterBy(delayMs, temperatureC)}${picture}.`,
    before: printMs(before),
    after: printMs(after),
    effects: [{ kind: "delay", delayMs, distanceM: metresFromMs(delayMs, temperatureC) }, ...crossings],
    causes: [change],
  };
}
