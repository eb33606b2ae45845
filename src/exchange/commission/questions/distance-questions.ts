import type { ScreenDescription } from "../../../model/index.ts";
import { wantedDb } from "../levels.ts";
import { type Asking, askNumber } from "./ask.ts";
import type { StandingAnswers } from "./loudspeaker-questions.ts";
import { type Placed, reachableM, type ToPlace } from "./reach.ts";
import type { UnitAnswers } from "./unit-questions.ts";

type Distances = Pick<
  ScreenDescription,
  "screenLoudspeakers" | "surroundArrays" | "subwoofers" | "surroundAfterMs"
>;

/** How much later than the screen surrounds arrive, in ms (precedence effect; the value: common practice, no source). */
const SURROUND_AFTER_MS = 15;

/** What is offered, in metres, where nothing else is known. */
const TYPICAL_SCREEN_M = 12;
const TYPICAL_SURROUND_M = 7;

const SCREEN_PLACES = [
  ["left", "left"],
  ["leftCenter", "left center"],
  ["center", "center"],
  ["rightCenter", "right center"],
  ["right", "right"],
] as const;

/** How far everything is from the reference seat. Typical distances are offered, never more than the unit can level out. */
export function* askDistances(
  { screenChannels, screenModel, subwoofers, arrays }: StandingAnswers,
  { profile, sampleRateHz }: UnitAnswers,
  temperatureC: number,
): Asking<Distances> {
  const part = "Distances to the reference seat (two thirds back, on the center line)";
  const surroundAfterMs =
    arrays.length === 0
      ? SURROUND_AFTER_MS
      : yield* askNumber({
          id: "surroundAfterMs",
          part,
          words: "How much later than the screen the surrounds arrive",
          help: "So that voices stay on the screen (precedence effect).",
          unit: "ms",
          min: 0,
          max: 50,
          default: SURROUND_AFTER_MS,
        });
  const placed: Placed[] = [];
  const limits = { profile, sampleRateHz, temperatureC, afterMs: surroundAfterMs };
  function* place(next: ToPlace, words: string, typicalM: number): Asking<number> {
    const { min, max } = reachableM(next, placed, limits);
    const distanceM = yield* askNumber({
      id: `${next.id}/distanceM`,
      part,
      words,
      help: "From the front of the loudspeaker to the ear, measured or taken from the drawing.",
      unit: "m",
      min,
      max,
      default: Math.min(max, Math.max(min, typicalM)),
    });
    placed.push({ ...next, distanceM });
    return distanceM;
  }

  const distancesM: Record<string, number> = {};
  /** A room is as wide on one side as on the other, most often. */
  const mirroredM = (name: string) => distancesM[name.replace("right", "left")];
  for (const [name, words] of SCREEN_PLACES) {
    if (screenChannels === 3 && name.endsWith("Center")) continue;
    const next = { id: `screen/${name}`, model: screenModel, wantedDb: wantedDb("screen", 1) };
    const typicalM = mirroredM(name) ?? distancesM.left ?? TYPICAL_SCREEN_M;
    distancesM[name] = yield* place(next, `Screen ${words}`, typicalM);
  }
  const subs: ScreenDescription["subwoofers"][number][] = [];
  for (const [index, { model, boxes }] of subwoofers.entries()) {
    const together = wantedDb("subwoofer", subwoofers.length * boxes);
    const words = subwoofers.length === 1 ? "Subwoofer" : `Subwoofer, output ${index + 1}`;
    const next = { id: `sub/${index + 1}`, model, wantedDb: together };
    subs.push({ model: model.id, boxes, distanceM: yield* place(next, words, distancesM.center!) });
  }
  const hung: ScreenDescription["surroundArrays"][number][] = [];
  for (const [index, { placement, model, boxes }] of arrays.entries()) {
    const alike = arrays.filter((item) => item.placement === placement).length;
    const number = arrays.slice(0, index + 1).filter((item) => item.placement === placement).length;
    const next = {
      id: `${placement}/${number}`,
      model,
      wantedDb: wantedDb("surround", alike * boxes),
      shares: placement,
    };
    const name = placement.replaceAll("-", " ");
    const mirrored = placed.find(({ id }) => id === `${placement.replace("right", "left")}/${number}`);
    const words = `${name[0]!.toUpperCase()}${name.slice(1)}${alike > 1 ? `, output ${number}` : ""}, nearest box`;
    hung.push({
      placement,
      model: model.id,
      boxes,
      distanceM: yield* place(next, words, mirrored?.distanceM ?? TYPICAL_SURROUND_M),
    } as (typeof hung)[number]);
  }
  return {
    screenLoudspeakers: {
      channels: screenChannels,
      model: screenModel.id,
      drive: screenModel.drive,
      distancesM: distancesM as unknown as ScreenDescription["screenLoudspeakers"]["distancesM"],
    },
    surroundArrays: hung,
    subwoofers: subs,
    surroundAfterMs,
  };
}
