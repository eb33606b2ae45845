import { thirdOctaveBands } from "../../../acoustics/index.ts";
import {
  CARRIED,
  CHANNEL_LABELS,
  DRIVES,
  FEEDS,
  FORMATS,
  GRAPHICS,
  PLACEMENTS,
  WAY_BANDS,
} from "./choices.ts";
import { crossoverColumns, FILTER_COLUMNS } from "./filters.ts";
import { choice, number, optional, type TableLayout, type TableName, text, yesNo } from "./layout.ts";
import { CROSSING_JOINS, channelNameColumn, OUTPUT_PLAYS } from "./shown.ts";

/** Every sort of table, in the order of the signal flow. */
export const LAYOUTS: readonly TableLayout[] = [
  {
    name: "inputs",
    title: "Channels of the sources",
    list: "sources[].channels",
    columns: [
      number("position"),
      text("connectorId"),
      optional(choice("carries", CARRIED)),
      number("gainDb"),
    ],
  },
  {
    name: "channels",
    title: "Levels and delays of the program channels",
    list: "channels",
    shown: [channelNameColumn(0)],
    columns: [choice("label", CHANNEL_LABELS), number("levelDb"), number("delayMs"), yesNo("mute")],
  },
  {
    name: "graphic-eq",
    title: "Graphic equalizers",
    list: "equalizations[].channels",
    shown: [channelNameColumn(1)],
    columns: [
      optional(choice("graphic.layout", GRAPHICS)),
      yesNo("graphic.enabled", true),
      ...thirdOctaveBands().map(({ index }) => ({ ...number("graphic.gainsDb"), band: index })),
    ],
  },
  {
    name: "parametric-eq",
    title: "Parametric equalizers",
    list: "equalizations[].channels[].parametric",
    shown: [channelNameColumn(1)],
    columns: FILTER_COLUMNS,
    growsBy: "kind",
  },
  {
    name: "presets",
    title: "Presets",
    list: "presets",
    columns: [
      number("slot"),
      text("label"),
      text("sourceId"),
      choice("format", FORMATS),
      text("equalizationId"),
      number("levelDb"),
      number("delayMs"),
      optional(number("faderMark")),
      optional(text("reason")),
    ],
  },
  {
    name: "routing",
    title: "Routing of the presets",
    list: "presets[].routing",
    shown: [CROSSING_JOINS],
    columns: [text("sourceChannelId"), text("channelId"), number("gainDb")],
    growsBy: "gainDb",
  },
  {
    name: "outputs",
    title: "Outputs",
    list: "outputs",
    shown: [OUTPUT_PLAYS],
    columns: [
      text("label"),
      text("connectorId"),
      choice("feeds.kind", FEEDS),
      optional(text("feeds.loudspeakerId")),
      optional(text("feeds.wayId")),
      ...crossoverColumns("highPass"),
      ...crossoverColumns("lowPass"),
      number("gainDb"),
      number("delayMs"),
      choice("polarity", ["normal", "inverted"]),
      optional(yesNo("limiter.enabled")),
      number("limiter.thresholdDbfs"),
      number("limiter.attackMs"),
      number("limiter.releaseMs"),
      yesNo("mute"),
    ],
  },
  {
    name: "output-mix",
    title: "Program channels in the outputs",
    list: "outputs[].mix",
    shown: [OUTPUT_PLAYS, channelNameColumn(1)],
    columns: [number("gainDb")],
    growsBy: "gainDb",
  },
  {
    name: "output-filters",
    title: "Driver equalizers of the outputs",
    list: "outputs[].filters",
    shown: [OUTPUT_PLAYS],
    columns: FILTER_COLUMNS,
    growsBy: "kind",
  },
  {
    name: "loudspeakers",
    title: "Loudspeakers",
    list: "loudspeakers",
    columns: [
      text("label"),
      choice("placement", PLACEMENTS),
      choice("drive", DRIVES),
      number("boxes"),
      optional(number("distanceM")),
    ],
  },
  {
    name: "loudspeaker-ways",
    title: "Ways of the loudspeakers",
    list: "loudspeakers[].ways",
    columns: [
      choice("band", WAY_BANDS),
      optional(number("safeHighPassHz")),
      optional(number("safeHighPassOrder")),
      optional(number("ratedPowerW")),
      optional(number("impedanceOhm")),
      optional(number("sensitivityDb")),
    ],
  },
];

/** The layout of a table. */
export function layoutOf(name: TableName): TableLayout {
  return LAYOUTS.find((layout) => layout.name === name)!;
}

export {
  OPTIONAL_PARTS,
  type ShownColumn,
  TABLE_NAMES,
  type TableColumn,
  type TableLayout,
  type TableName,
  type Takes,
} from "./layout.ts";
