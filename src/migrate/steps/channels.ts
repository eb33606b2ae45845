import type { ChannelLabel, Configuration, ProgramChannel, Question } from "../../model/index.ts";
import { ask, outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** Channels that a unit without the label can play through another one, nearest first: common practice, no source. */
const STAND_INS: Readonly<Partial<Record<ChannelLabel, readonly ChannelLabel[]>>> = {
  Lss: ["Ls"],
  Lrs: ["Ls"],
  Rss: ["Rs"],
  Rrs: ["Rs"],
  Ls: ["Lss", "Lrs"],
  Rs: ["Rss", "Rrs"],
};

/** Program channels: which of them the unit has. */
export const channels: Step = {
  name: "channels",
  run: (context) => {
    const { old, to } = context;
    const missing = old.channels.filter(({ label }) => !to.channels.labels.includes(label));
    const kept = old.channels.filter((channel) => !missing.includes(channel));
    const verdicts = missing.map((channel) => ({
      channel,
      verdict: ask(context, missingQuestion(context, channel)),
    }));
    let next: Configuration = context.next;
    for (const { channel, verdict } of verdicts) next = withoutChannel(next, channel, verdict);
    return {
      next,
      items: [...kept.map(keptItem), ...verdicts.map((item) => missingItem(old, next, item))],
      questions: verdicts.map(({ verdict }) => verdict.question),
    };
  },
};

function keptItem(channel: ProgramChannel): StepItem {
  const at = `channels/${channel.id}`;
  return {
    outcome: "kept",
    place: place(at, `Program channel ${channel.label}`),
    words: `Program channel ${channel.label} is there on the new unit too.`,
    claims: [`${at}/id`, `${at}/label`, `${at}/mute`],
  };
}

function missingItem(
  old: Configuration,
  next: Configuration,
  { channel, verdict }: { readonly channel: ProgramChannel; readonly verdict: Verdict },
): StepItem {
  const at = `channels/${channel.id}`;
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: place(at, `Program channel ${channel.label}`),
    words: `The new unit has no program channel ${channel.label}: ${verdict.option.words}`,
    claims: [
      at,
      ...old.equalizations.flatMap((set) =>
        set.channels.some(({ channelId }) => channelId === channel.id)
          ? [`equalizations/${set.id}/channels/${channel.id}`]
          : [],
      ),
      ...old.outputs.flatMap((output) =>
        output.mix.some(({ channelId }) => channelId === channel.id)
          ? [`outputs/${output.id}/mix/${channel.id}`]
          : [],
      ),
      ...routeClaims(old, next, channel.id),
    ],
    questionId: verdict.question.id,
  };
}

/** A route that went to the stand-in keeps its gain: only its channel is accounted for here. */
function routeClaims(old: Configuration, next: Configuration, channelId: string): readonly string[] {
  const alive = new Map(
    next.presets.map((preset) => [preset.id, new Set(preset.routing.map(({ id }) => id))]),
  );
  return old.presets.flatMap((preset) =>
    preset.routing
      .filter((route) => route.channelId === channelId)
      .map((route) => {
        const at = `presets/${preset.id}/routing/${route.id}`;
        return alive.get(preset.id)?.has(route.id) === true ? `${at}/channelId` : at;
      }),
  );
}

function missingQuestion({ old, to }: StepContext, channel: ProgramChannel): Question {
  const stand = (STAND_INS[channel.label] ?? [])
    .map((label) => old.channels.find((item) => item.label === label))
    .filter((item) => item !== undefined && to.channels.labels.includes(item.label));
  const presets = old.presets.filter(({ routing }) =>
    routing.some(({ channelId }) => channelId === channel.id),
  ).length;
  const outputs = old.outputs.filter(({ mix }) =>
    mix.some(({ channelId }) => channelId === channel.id),
  ).length;
  return {
    id: `channels/${channel.id}`,
    place: place(`channels/${channel.id}`, `Program channel ${channel.label}`),
    words: `The new unit has no program channel ${channel.label}. What becomes of it?`,
    options: [
      ...stand.map((item) => ({
        id: `play-through-${item!.id}`,
        words: `Its sources are led to ${item!.label}, and its outputs are fed by ${item!.label}.`,
        consequence: `${presets} presets and ${outputs} outputs lose the difference between ${channel.label} and ${item!.label}; its own EQ, level and delay are dropped.`,
        numbers: { presets, outputs },
      })),
      {
        id: "leave-out",
        words: "It is left out.",
        consequence: `What ${presets} presets send to it is heard no more; ${outputs} outputs lose that feed.`,
        numbers: { presets, outputs },
      },
    ],
    ...(stand.length === 0
      ? {}
      : {
          recommended: {
            optionId: `play-through-${stand[0]!.id}`,
            reason: "every loudspeaker keeps playing.",
          },
        }),
    unanswered: {
      optionId: stand.length === 0 ? "leave-out" : `play-through-${stand[0]!.id}`,
      words: stand.length === 0 ? "It is left out." : "It is played through the nearest channel.",
    },
  };
}

/** The configuration without a channel: routes and mixes go to its stand-in or away. Later steps claim what fell away. */
function withoutChannel(
  configuration: Configuration,
  channel: ProgramChannel,
  verdict: Verdict,
): Configuration {
  const standIn = verdict.option.id.startsWith("play-through-")
    ? verdict.option.id.slice("play-through-".length)
    : undefined;
  return {
    ...configuration,
    channels: configuration.channels.filter(({ id }) => id !== channel.id),
    equalizations: configuration.equalizations.map((set) => ({
      ...set,
      channels: set.channels.filter(({ channelId }) => channelId !== channel.id),
    })),
    presets: configuration.presets.map((preset) => ({
      ...preset,
      routing: ledTo(preset.routing, channel.id, standIn, (a, b) => a.sourceChannelId === b.sourceChannelId),
    })),
    outputs: configuration.outputs.map((output) => ({
      ...output,
      mix: ledTo(output.mix, channel.id, standIn, () => true),
    })),
  };
}

/** Entries of a channel led to its stand-in, unless the stand-in has the like already; without a stand-in left out. */
function ledTo<T extends { readonly channelId: string }>(
  entries: readonly T[],
  channelId: string,
  standIn: string | undefined,
  like: (a: T, b: T) => boolean,
): readonly T[] {
  const others = entries.filter((entry) => entry.channelId !== channelId);
  if (standIn === undefined) return others;
  const added = entries.filter(
    (entry) =>
      entry.channelId === channelId &&
      !others.some((other) => other.channelId === standIn && like(other, entry)),
  );
  return [...others, ...added.map((entry) => ({ ...entry, channelId: standIn }))];
}
