import type { Configuration, Connector, FittedItem, Source, UnitProfile } from "../../../model/index.ts";
import { CONNECTORS_OF_SOURCE } from "../../../profile/index.ts";
import { askFit, FITTING, type FitContext, type FitStage, type FitVerdict } from "./ask.ts";
import { itemWords, withItem } from "./new-parts.ts";

/**
 * Channels that the standard adds to a source that the screen has: each gets an input of the source's kind, its own where
 * that is free. Where the unit has none left, the channel is asked about; presets that need it are asked about next.
 */
export function withSourceChannels(context: FitContext, target: Configuration): FitStage {
  let configuration = target;
  const items: FittedItem[] = [];
  const verdicts: FitVerdict[] = [];
  for (const source of target.sources) {
    const before = context.screen.sources.find(({ id }) => id === source.id);
    const had = new Set(before?.channels.map(({ id }) => id));
    const added = source.channels.filter(({ id }) => !had.has(id));
    if (before === undefined || added.length === 0) continue;
    const { channels, plugs } = plugged(source, had, configuration, context.profile);
    configuration = withItem(configuration, "sources", { ...source, channels });
    items.push(...plugs.map(({ position, connector }) => plugItem(source, position, connector)));
    const left = added.length - plugs.length;
    if (left === 0) continue;
    const verdict = askFit(context, questionOf(source, { left, added: added.length }));
    verdicts.push(verdict);
    items.push({
      place: `sources/${source.id}`,
      words: itemWords("sources", source),
      outcome: verdict.isOpen ? "asks" : "left-out",
      text: verdict.isOpen ? "Waits for inputs." : `${verdict.option.words} By decision.`,
      numbers: { wanted: added.length, left },
    });
  }
  return { configuration, items, verdicts };
}

interface Plug {
  readonly position: number;
  readonly connector: Connector;
}

/** The source with those of its new channels that find an input. */
function plugged(
  source: Source,
  had: ReadonlySet<string>,
  configuration: Configuration,
  { connectors, sources: { channelsMax } }: UnitProfile,
): { readonly channels: Source["channels"]; readonly plugs: readonly Plug[] } {
  const own = source.channels.filter(({ id }) => had.has(id));
  const used = new Set([
    ...configuration.sources
      .filter(({ id }) => id !== source.id)
      .flatMap(({ channels }) => channels.map(({ connectorId }) => connectorId)),
    ...own.map(({ connectorId }) => connectorId),
  ]);
  const fitting = connectors.filter(
    ({ direction, kind }) => direction === "input" && CONNECTORS_OF_SOURCE[source.kind].includes(kind),
  );
  const groups = new Set(fitting.filter(({ id }) => used.has(id)).map(({ group }) => group));
  const ordered = [
    ...fitting.filter(({ group }) => groups.has(group)),
    ...fitting.filter(({ group }) => !groups.has(group)),
  ];
  const plugs: Plug[] = [];
  let count = own.length;
  const channels = source.channels.flatMap((channel) => {
    if (had.has(channel.id)) return [channel];
    const free = ordered.filter(({ id }) => !used.has(id));
    const connector = free.find(({ id }) => id === channel.connectorId) ?? free[0];
    if (connector === undefined || count >= channelsMax) return [];
    count += 1;
    used.add(connector.id);
    plugs.push({ position: channel.position, connector });
    return [{ ...channel, connectorId: connector.id }];
  });
  return { channels, plugs };
}

function plugItem(source: Source, position: number, { group, label }: Connector): FittedItem {
  const at = group === label ? label : `${group}, ${label}`;
  const todo = `Plug position ${position} of '${source.label}' into ${at}.`;
  return {
    place: `sources/${source.id}`,
    words: itemWords("sources", source),
    outcome: "moved",
    text: todo,
    numbers: { position },
    todo,
  };
}

function questionOf(source: Source, { left, added }: { readonly left: number; readonly added: number }) {
  return {
    place: `${FITTING}/sources/${source.id}/channels`,
    words: itemWords("sources", source),
    question: `The standard adds ${added} channels to '${source.label}'; for ${left} of them the unit has no input of its kind (${source.kind}) left. What shall be done?`,
    options: [
      {
        id: "not-added",
        words: `${left} of the channels are not added.`,
        consequence: "Presets that need them are asked about next.",
      },
    ],
  };
}
