import type { Configuration, Source, SourceChannel } from "../../../model/index.ts";
import { leaveOut } from "../leave-out.ts";
import { outcomeOf, type Part, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";
import { channelAddress } from "./input-cables.ts";
import { channelsUse, lossWords, presetLosses, sourceUse } from "./source-use.ts";

/** As many sources as the unit holds; what fewest presets use is proposed to go. */
export function withinCount(context: StepContext): Part {
  const { next, to } = context;
  const inOrder = next.sources;
  const uses = new Map(inOrder.map((source) => [source.id, sourceUse(next, source)]));
  const use = ({ id }: Source) => uses.get(id)!;
  const leastUsed = [...inOrder].reverse().sort((a, b) => use(a).weight - use(b).weight);
  const left = leaveOut(context, {
    questionId: "sources/count",
    place: place("sources", "Sources"),
    things: "sources",
    max: to.sources.max,
    count: next.sources.length,
    candidates: leastUsed.map((source) => ({
      id: source.id,
      label: source.label,
      loss: use(source).words,
    })),
    reason: "they are needed least.",
  });
  return {
    next: { ...next, sources: next.sources.filter(({ id }) => !left.ids.has(id)) },
    items: inOrder
      .filter(({ id }) => left.ids.has(id))
      .map((source) => lostSource(source, "The unit holds fewer sources", left.verdict!)),
    questions: left.verdict === undefined ? [] : [left.verdict.question],
  };
}

export function lostSource(source: Source, why: string, verdict: Verdict): StepItem {
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: place(`sources/${source.id}`, `Source '${source.label}'`),
    words: `${why}: '${source.label}' is left out.`,
    claimsRest: [`sources/${source.id}`],
    questionId: verdict.question.id,
  };
}

/** As many channels in each source as the unit takes; what no preset routes is proposed to go. */
export function withinChannels(context: StepContext): Part {
  const { next, to } = context;
  const uses = channelsUse(next);
  const useOf = (source: Source, channel: SourceChannel) => uses.get(channelAddress(source, channel)) ?? 0;
  const parts = next.sources.map((source) => {
    const candidates = [...source.channels]
      .sort((a, b) => useOf(source, a) - useOf(source, b) || b.position - a.position)
      .map((channel) => ({
        id: channel.id,
        label: `position ${channel.position}`,
        loss: lossWords(presetLosses(next, new Set([channel.id]))),
      }));
    const left = leaveOut(context, {
      questionId: `sources/${source.id}/channels`,
      place: place(`sources/${source.id}`, `Source '${source.label}'`),
      things: "channels in one source",
      max: to.sources.channelsMax,
      count: source.channels.length,
      candidates,
      reason: "they are missed least.",
    });
    return { source, left };
  });
  const gone = new Set(parts.flatMap(({ left }) => [...left.ids]));
  return {
    next: withoutSourceChannels(next, gone),
    items: parts.flatMap(({ source, left }) => {
      const lost = source.channels.filter(({ id }) => left.ids.has(id));
      return lost.map((channel) => lostChannel(next, { source, channel, verdict: left.verdict }));
    }),
    questions: parts.flatMap(({ left }) => (left.verdict === undefined ? [] : [left.verdict.question])),
  };
}

export function withoutSourceChannels(
  configuration: Configuration,
  gone: ReadonlySet<string>,
): Configuration {
  if (gone.size === 0) return configuration;
  return {
    ...configuration,
    sources: configuration.sources.map((source) => ({
      ...source,
      channels: source.channels.filter(({ id }) => !gone.has(id)),
    })),
    presets: configuration.presets.map((preset) => ({
      ...preset,
      routing: preset.routing.filter(({ sourceChannelId }) => !gone.has(sourceChannelId)),
    })),
  };
}

/** A source channel that goes, and the routes that start at it. Without a verdict nothing used it. */
export function lostChannel(
  configuration: Configuration,
  {
    source,
    channel,
    verdict,
  }: { readonly source: Source; readonly channel: SourceChannel; readonly verdict: Verdict | undefined },
): StepItem {
  const at = `sources/${source.id}/channels/${channel.id}`;
  const routes = configuration.presets.flatMap((preset) =>
    preset.routing
      .filter(({ sourceChannelId }) => sourceChannelId === channel.id)
      .map((route) => `presets/${preset.id}/routing/${route.id}`),
  );
  return {
    outcome: verdict === undefined ? "lost" : outcomeOf(verdict, "lost"),
    place: place(at, `Source '${source.label}', position ${channel.position}`),
    words:
      routes.length === 0
        ? `No connector is left for position ${channel.position}, which no preset uses.`
        : `Position ${channel.position} is left out, and with it ${routes.length} routes.`,
    numbers: { routes: routes.length },
    claimsRest: [at, ...routes],
    ...(verdict === undefined ? {} : { questionId: verdict.question.id }),
  };
}
