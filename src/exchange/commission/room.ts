import { BoothkeepError } from "../../base/errors/index.ts";
import type {
  ChannelLabel,
  Loudspeaker,
  LoudspeakerData,
  LoudspeakerModel,
  MixPart,
  Placement,
  ScreenDescription,
} from "../../model/index.ts";
import { FORMAT_CHANNELS } from "../../model/index.ts";
import { PLACEMENTS } from "../../rules/index.ts";

/** A loudspeaker of the room with its data and the program channels that it plays. */
export interface PlacedLoudspeaker {
  readonly loudspeaker: Loudspeaker & { readonly distanceM: number };
  readonly model: LoudspeakerModel;
  readonly mix: readonly MixPart[];
}

/** What stands in the room, and the program channels that it makes possible. */
export interface Room {
  readonly channels: readonly ChannelLabel[];
  /** From the screen's left to the right, then subwoofers, then surrounds as described. */
  readonly placed: readonly PlacedLoudspeaker[];
}

/** One channel from two loudspeakers' worth of arrays, or two channels from one: the equal-power share, in dB. */
const SHARED_DB = -3;

/**
 * The loudspeakers of a description and the program channels that they play. The screen channels follow from their
 * number, the surround channels from the auditorium's own format.
 *
 * @throws BoothkeepError commission.unknown-model, commission.other-drive, commission.does-not-fit
 */
export function roomOf(description: ScreenDescription, data: LoudspeakerData): Room {
  const models = modelsOf(description, data);
  const channels = channelsOf(description);
  const placed = [
    ...screenLoudspeakers(description, models),
    ...subwoofers(description, models),
    ...surroundArrays(description, models),
  ].map((item) => ({ ...item, mix: mixFor(item.loudspeaker.placement, channels, item.pointer) }));
  for (const label of channels) {
    const plays = placed.some(({ mix }) => mix.some(({ channelId }) => channelId === label));
    if (!plays && label !== "HI" && label !== "VIN") throw channelWithoutLoudspeaker(label, description);
  }
  return { channels, placed: placed.map(({ pointer: _, ...item }) => item) };
}

type Models = (id: string, pointer: string) => LoudspeakerModel;

interface Standing {
  readonly loudspeaker: PlacedLoudspeaker["loudspeaker"];
  readonly model: LoudspeakerModel;
  readonly pointer: string;
}

function modelsOf(description: ScreenDescription, data: LoudspeakerData): Models {
  const models = new Map(data.models.map((model) => [model.id, model]));
  const find: Models = (id, pointer) => {
    const model = models.get(id);
    if (model !== undefined) return model;
    throw new BoothkeepError("commission.unknown-model", `The loudspeaker data has no model '${id}'.`, {
      place: { pointer: `${pointer}/model`, id },
      next: `Known there: ${[...models.keys()].join(", ")}. Correct the name, or add the model from its data sheet.`,
      data: { known: [...models.keys()] },
    });
  };
  const { model, drive } = description.screenLoudspeakers;
  const found = find(model, "/screenLoudspeakers");
  if (found.drive !== drive) {
    throw new BoothkeepError(
      "commission.other-drive",
      `The screen loudspeakers are wired ${drive}; the data of '${model}' is for ${found.drive}.`,
      {
        place: { pointer: "/screenLoudspeakers/drive", id: model },
        next: "Look at the terminals of the loudspeakers: crossovers for another drive destroy drivers. Then correct the drive or the model.",
      },
    );
  }
  return find;
}

function channelsOf(description: ScreenDescription): readonly ChannelLabel[] {
  const own = FORMAT_CHANNELS[description.formats[0]!];
  const screen: readonly ChannelLabel[] =
    description.screenLoudspeakers.channels === 5 ? ["L", "R", "C", "Lc", "Rc"] : ["L", "R", "C"];
  const all = new Set<ChannelLabel>([
    ...screen,
    ...(description.subwoofers.length > 0 ? (["LFE"] as const) : []),
    ...own,
    ...(description.hearingImpaired === true ? (["HI"] as const) : []),
    ...(description.narration === true ? (["VIN"] as const) : []),
  ]);
  return [...all];
}

const SCREEN_PLACES = [
  ["left", "screen-left", "Left", "left"],
  ["left-center", "screen-left-center", "Left center", "leftCenter"],
  ["center", "screen-center", "Center", "center"],
  ["right-center", "screen-right-center", "Right center", "rightCenter"],
  ["right", "screen-right", "Right", "right"],
] as const;

function screenLoudspeakers({ screenLoudspeakers }: ScreenDescription, models: Models): Standing[] {
  const { channels, distancesM } = screenLoudspeakers;
  const model = models(screenLoudspeakers.model, "/screenLoudspeakers");
  const places = SCREEN_PLACES.filter(([id]) => channels === 5 || !id.includes("-"));
  return places.map(([id, placement, label, name]) => {
    const distanceM = distancesM[name];
    const pointer = `/screenLoudspeakers/distancesM/${name}`;
    if (distanceM === undefined) {
      throw new BoothkeepError("commission.does-not-fit", `The distance of ${label} is missing.`, {
        place: { pointer },
        next: "Five screen channels need five distances: measure this one to the reference seat.",
      });
    }
    return { loudspeaker: standing({ id, label, placement, distanceM, boxes: 1 }, model), model, pointer };
  });
}

function subwoofers({ subwoofers: subs }: ScreenDescription, models: Models): Standing[] {
  return subs.map(({ model: modelId, boxes, distanceM }, index) => {
    const pointer = `/subwoofers/${index}`;
    const model = models(modelId, pointer);
    const id = `sub-${index + 1}`;
    const label = subs.length === 1 ? "Sub" : `Sub ${index + 1}`;
    return {
      loudspeaker: standing({ id, label, placement: "subwoofer", distanceM, boxes }, model),
      model,
      pointer,
    };
  });
}

function surroundArrays({ surroundArrays: arrays }: ScreenDescription, models: Models): Standing[] {
  return arrays.map(({ placement, model: modelId, boxes, distanceM }, index) => {
    const pointer = `/surroundArrays/${index}`;
    const model = models(modelId, pointer);
    const alike = arrays.filter((item) => item.placement === placement);
    const number = arrays.slice(0, index + 1).filter((item) => item.placement === placement).length;
    const tail = alike.length > 1 ? `-${number}` : "";
    const words = placement.replaceAll("-", " ");
    const label = `${words[0]!.toUpperCase()}${words.slice(1)}${alike.length > 1 ? ` ${number}` : ""}`;
    return {
      loudspeaker: standing({ id: `${placement}${tail}`, label, placement, distanceM, boxes }, model),
      model,
      pointer,
    };
  });
}

function standing(
  place: Pick<Loudspeaker, "id" | "label" | "placement" | "boxes"> & { readonly distanceM: number },
  model: LoudspeakerModel,
): PlacedLoudspeaker["loudspeaker"] {
  return {
    id: place.id,
    label: place.label,
    placement: place.placement,
    drive: model.drive,
    boxes: place.boxes,
    distanceM: place.distanceM,
    ways: model.ways.map(({ alignMs: _a, highPass: _h, lowPass: _l, splitAbove: _s, ...way }) => way),
  };
}

/** An array plays the channels that name its place first: of 6.1, a left rear array plays Cs and not Ls. */
function mixFor(placement: Placement, channels: readonly ChannelLabel[], pointer: string): MixPart[] {
  const ranked = channels
    .map((label) => ({ label, rank: PLACEMENTS[label].indexOf(placement) }))
    .filter(({ rank }) => rank >= 0);
  const best = Math.min(...ranked.map(({ rank }) => rank));
  const labels = ranked.filter(({ rank }) => rank === best).map(({ label }) => label);
  if (labels.length === 0) {
    throw new BoothkeepError(
      "commission.does-not-fit",
      `No channel of the auditorium's format plays from '${placement.replaceAll("-", " ")}'.`,
      {
        place: { pointer },
        next: "Put the format that uses this place first in 'formats', or correct the placement.",
      },
    );
  }
  return labels.map((channelId) => ({ channelId, gainDb: labels.length > 1 ? SHARED_DB : 0 }));
}

function channelWithoutLoudspeaker(label: ChannelLabel, { formats }: ScreenDescription): BoothkeepError {
  const format = formats[0]!;
  return new BoothkeepError(
    "commission.does-not-fit",
    `The auditorium's format is ${format}, but no loudspeaker plays ${label}.`,
    {
      place: { pointer: "/formats/0", id: label },
      next:
        label === "LFE"
          ? "Describe the subwoofers, or put a format without LFE first."
          : label === "Lc" || label === "Rc"
            ? "Set five screen channels and give their distances, or put another format first."
            : `Describe an array at ${PLACEMENTS[label].join(" or ")}, or put a format without ${label} first.`,
    },
  );
}
