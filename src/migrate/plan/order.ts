import type {
  AutomationItem,
  ChannelLabel,
  Configuration,
  Connector,
  EqSet,
  NetworkInterface,
  Output,
  Preset,
  Source,
  UnitProfile,
} from "../../model/index.ts";

/**
 * Orders that come from what things are (where they are plugged, which slot recalls them), never from ids or from the
 * order of a list: so neither can change what a plan chooses.
 */

/** Soundfield groups of SMPTE ST 428-12 from the screen to the rear, then what leaves by headset. */
export const CHANNEL_ORDER: readonly ChannelLabel[] = [
  "L",
  "C",
  "R",
  "Lc",
  "Rc",
  "LFE",
  "Ls",
  "Rs",
  "Lss",
  "Rss",
  "Lrs",
  "Rrs",
  "Cs",
  "HI",
  "VIN",
];

export type Order<T> = (a: T, b: T) => number;

/** Connectors as a person works along the rear panel. */
export const byPanel: Order<Connector> = (a, b) =>
  a.rack - b.rack || compareText(a.group, b.group) || a.position - b.position || compareText(a.id, b.id);

/** Position of each connector along the rear panel, from 0. */
export function panelIndex(profile: UnitProfile): ReadonlyMap<string, number> {
  return new Map([...profile.connectors].sort(byPanel).map(({ id }, index) => [id, index]));
}

export function outputOrder(profile: UnitProfile): Order<Output> {
  const index = panelIndex(profile);
  return (a, b) =>
    place(index, a.connectorId) - place(index, b.connectorId) ||
    compareText(a.label, b.label) ||
    compareText(a.id, b.id);
}

export function sourceOrder(profile: UnitProfile): Order<Source> {
  const index = panelIndex(profile);
  const first = (source: Source) =>
    Math.min(...source.channels.map(({ connectorId }) => place(index, connectorId)));
  return (a, b) =>
    first(a) - first(b) ||
    compareText(a.kind, b.kind) ||
    compareText(a.label, b.label) ||
    compareText(a.id, b.id);
}

export const presetOrder: Order<Preset> = (a, b) =>
  a.slot - b.slot || compareText(a.label, b.label) || compareText(a.id, b.id);

/** EQ sets by the lowest slot that uses them. */
export function equalizationOrder(configuration: Configuration): Order<EqSet> {
  const slot = (set: EqSet) =>
    Math.min(
      Number.MAX_SAFE_INTEGER,
      ...configuration.presets
        .filter(({ equalizationId }) => equalizationId === set.id)
        .map((preset) => preset.slot),
    );
  return (a, b) => slot(a) - slot(b) || compareText(a.label, b.label) || compareText(a.id, b.id);
}

export function automationOrder(profile: UnitProfile): Order<AutomationItem> {
  const index = panelIndex(profile);
  const terminal = ({ trigger }: AutomationItem) =>
    "connectorId" in trigger ? place(index, trigger.connectorId) : Number.MAX_SAFE_INTEGER;
  const text = ({ trigger }: AutomationItem) => ("text" in trigger ? trigger.text : trigger.edge);
  return (a, b) =>
    terminal(a) - terminal(b) ||
    compareText(a.trigger.kind, b.trigger.kind) ||
    compareText(text(a), text(b)) ||
    compareText(a.label, b.label) ||
    compareText(a.id, b.id);
}

export function channelRank(label: ChannelLabel): number {
  return CHANNEL_ORDER.indexOf(label);
}

/** By UTF-16 code units: the same everywhere, whatever the language of the machine. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function place(index: ReadonlyMap<string, number>, connectorId: string): number {
  return index.get(connectorId) ?? Number.MAX_SAFE_INTEGER;
}

/** Control interfaces before audio ones: without control the unit cannot be reached. */
export const interfaceOrder: Order<NetworkInterface> = (a, b) =>
  compareText(b.purpose, a.purpose) || compareText(a.label, b.label) || compareText(a.id, b.id);
