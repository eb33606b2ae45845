import type { Format, LoudspeakerData, LoudspeakerModel, Placement } from "../../../model/index.ts";
import { FORMAT_CHANNELS } from "../../../model/index.ts";
import { type Drive, modelsFor, surroundPlaces } from "./abilities.ts";
import { type Asking, askChoice, askNumber } from "./ask.ts";
import { formatsOfUnit, type UnitAnswers } from "./unit-questions.ts";

/** One output's worth of loudspeakers. */
export interface Group {
  readonly model: LoudspeakerModel;
  readonly boxes: number;
}

/** What stands in the room, without distances. */
export interface StandingAnswers {
  /** The auditorium's own. */
  readonly format: Format;
  readonly screenChannels: 3 | 5;
  readonly screenModel: LoudspeakerModel;
  readonly subwoofers: readonly Group[];
  readonly arrays: readonly (Group & { readonly placement: Placement })[];
  /** Outputs of the unit that are still free. */
  readonly outputsLeft: number;
}

const DRIVE_WORDS: Readonly<Record<Drive, string>> = {
  passive: "passive: one amplifier channel each",
  "active-2": "active, two ways",
  "active-3": "active, three ways",
  "active-4": "active, four ways",
};

/** Most subwoofer outputs, and arrays at one place, that are asked for. */
const SUBWOOFERS_MAX = 8;
const ARRAYS_MAX = 4;
/** Boxes of one output (schema: 16 subwoofers, 32 in an array). */
const SUB_BOXES_MAX = 16;
const ARRAY_BOXES_MAX = 32;

/** Which loudspeakers there are, and how they are driven. */
export function* askLoudspeakers(data: LoudspeakerData, unit: UnitAnswers): Asking<StandingAnswers> {
  const { profile } = unit;
  const part = "The loudspeakers";
  const [screenModels, surroundModels, subModels] = (["screen", "surround", "subwoofer"] as const).map(
    (use) => modelsFor(use, data, profile),
  );
  const outputs = profile.connectors.filter(({ direction }) => direction === "output").length;
  const fewest = Math.min(...screenModels!.map(({ ways }) => ways.length));
  const least = (format: Format) => surroundPlaces(format).length + (needsSub(format) ? 1 : 0);
  const isPossible = (format: Format) =>
    screenCount(format) * fewest + least(format) <= outputs &&
    (surroundPlaces(format).length === 0 || surroundModels!.length > 0) &&
    (!needsSub(format) || subModels!.length > 0);
  const format = yield* askChoice({
    id: "formats/own",
    part,
    words: "Format that the auditorium is built for",
    help: "It says which surround channels there are. Other formats that the room can play are asked for later.",
    choices: formatsOfUnit(unit)
      .filter(isPossible)
      .map((value) => ({ value, words: `${value}: ${FORMAT_CHANNELS[value].join(" ")}` })),
  });
  const counts = ([3, 5] as const).filter(
    (count) =>
      count >= screenCount(format) &&
      (count === 3 || (["Lc", "Rc"] as const).every((label) => profile.channels.labels.includes(label))) &&
      count * fewest + least(format) <= outputs,
  );
  const screenChannels = Number(
    yield* askChoice({
      id: "screen/channels",
      part,
      words: "Loudspeakers behind the screen",
      help: "Five: left center and right center besides, for 7.1SDS.",
      choices: counts.map((count) => ({
        value: String(count),
        words: count === 3 ? "3: left, center, right" : "5: with left center and right center",
      })),
      default: String(counts[0]),
    }),
  ) as 3 | 5;
  const fitting = screenModels!.filter(({ ways }) => screenChannels * ways.length + least(format) <= outputs);
  const drive = yield* askChoice({
    id: "screen/drive",
    part,
    words: "How the screen loudspeakers are driven",
    help: "Look at their terminals: a crossover for another drive destroys drivers.",
    choices: [...new Set(fitting.map((model) => model.drive))].map((value) => ({
      value,
      words: DRIVE_WORDS[value],
    })),
  });
  const screenModel = yield* askModel(
    { id: "screen/model", part, words: "Model behind the screen" },
    fitting.filter((model) => model.drive === drive),
  );
  const places = surroundPlaces(format);
  let left = outputs - screenChannels * screenModel.ways.length - places.length;
  const subwoofers = yield* askSubwoofers(subModels!, { left, needed: needsSub(format) ? 1 : 0 });
  left -= subwoofers.length;
  const arrays: StandingAnswers["arrays"][number][] = [];
  const surroundModel =
    places.length === 0
      ? undefined
      : yield* askModel(
          { id: "surround/model", part, words: "Model of the surround loudspeakers" },
          surroundModels!,
        );
  for (const placement of places) {
    const words = placement.replaceAll("-", " ");
    const count = yield* askNumber({
      id: `${placement}/arrays`,
      part,
      words: `Outputs for ${words}`,
      help: "Each array on an output of its own can have its own delay and level.",
      unit: "",
      min: 1,
      max: Math.min(ARRAYS_MAX, left + 1),
      whole: true,
      default: 1,
    });
    left -= count - 1;
    for (let number = 1; number <= count; number += 1) {
      const boxes = yield* askNumber({
        id: `${placement}/${number}/boxes`,
        part,
        words: `Loudspeakers on ${words}${count > 1 ? `, output ${number}` : ""}`,
        help: "In parallel on this output.",
        unit: "",
        min: 1,
        max: ARRAY_BOXES_MAX,
        whole: true,
        default: 4,
      });
      arrays.push({ placement, model: surroundModel!, boxes });
    }
  }
  return { format, screenChannels, screenModel, subwoofers, arrays, outputsLeft: left };
}

function* askSubwoofers(
  models: readonly LoudspeakerModel[],
  { left, needed }: { readonly left: number; readonly needed: number },
): Asking<readonly Group[]> {
  const part = "The loudspeakers";
  const most = models.length === 0 ? 0 : Math.min(SUBWOOFERS_MAX, left);
  if (most === 0) return [];
  const count = yield* askNumber({
    id: "sub/outputs",
    part,
    words: "Outputs for subwoofers",
    help: "Several boxes can share one. They play the LFE channel.",
    unit: "",
    min: needed,
    max: most,
    whole: true,
    default: 1,
  });
  if (count === 0) return [];
  const model = yield* askModel({ id: "sub/model", part, words: "Model of the subwoofers" }, models);
  const groups: Group[] = [];
  for (let number = 1; number <= count; number += 1) {
    const boxes = yield* askNumber({
      id: `sub/${number}/boxes`,
      part,
      words: `Subwoofers on output ${number}`,
      help: "In parallel on this output.",
      unit: "",
      min: 1,
      max: SUB_BOXES_MAX,
      whole: true,
      default: 1,
    });
    groups.push({ model, boxes });
  }
  return groups;
}

function* askModel(
  question: { readonly id: string; readonly part: string; readonly words: string },
  models: readonly LoudspeakerModel[],
): Asking<LoudspeakerModel> {
  const [first, ...more] = models;
  // Asked even where there is only one: crossovers follow from it.
  const id = yield {
    kind: "choice",
    confirm: true,
    ...question,
    help: "From the loudspeaker data; models whose crossovers this unit cannot run are left out.",
    choices: models.map((model) => ({ value: model.id, words: model.label })),
    ...(first !== undefined && more.length === 0 ? { default: first.id } : {}),
  };
  return models.find((model) => model.id === id)!;
}

function needsSub(format: Format): boolean {
  return FORMAT_CHANNELS[format].includes("LFE");
}

function screenCount(format: Format): 3 | 5 {
  return FORMAT_CHANNELS[format].includes("Lc") ? 5 : 3;
}
