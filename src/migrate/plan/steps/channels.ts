import type { Configuration, Fold, ProgramChannel, Question } from "../../../model/index.ts";
import { foldChannels, withoutChannels } from "../channels/fold.ts";
import { channelQuestion, SPREAD } from "../channels/question.ts";
import { withoutSilentOutputs } from "../channels/silent-outputs.ts";
import { neighboursOf, spreadChannel } from "../channels/spread.ts";
import { type MissingChannels, missingChannels } from "../channels/stand-ins.ts";
import { ask, outcomeOf, type Step, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** Program channels: which of them the unit has, and through which it plays the others. */
export const channels: Step = {
  name: "channels",
  run: (context) => {
    const { old, to } = context;
    const missing = missingChannels(old, to);
    const gone = new Set(missing.flatMap((group) => group.channels.map(({ id }) => id)));
    const items = old.channels.filter(({ id }) => !gone.has(id)).map(keptItem);
    const questions: Question[] = [];
    const folds: Fold[] = [];
    let { next } = context;
    for (const group of missing) {
      const [first] = group.channels;
      const neighbours = group.standIn === undefined ? neighboursOf(next, first!, to) : undefined;
      const verdict = ask(context, channelQuestion({ ...context, next }, group, neighbours));
      questions.push(verdict.question);
      const lost = (channel: ProgramChannel) => goneItem({ old, next, channel, verdict });
      if (verdict.option.id.startsWith(SPREAD)) {
        const spread = spreadChannel(next, first!, neighbours!);
        next = withoutChannels(spread.next, new Set([first!.id]));
        folds.push({ channelId: first!.id, into: neighbours!.map(({ label }) => label) });
        items.push(
          ...louderItems(spread.louder, first!, verdict),
          movedRoutes(old, first!, verdict),
          lost(first!),
        );
      } else if (verdict.option.id === "leave-out") {
        next = withoutChannels(next, new Set(group.channels.map(({ id }) => id)));
        items.push(...group.channels.map(lost));
      } else {
        const folded = foldChannels(next, group);
        next = folded.next;
        folds.push(
          ...group.channels.map(({ id }) => ({
            channelId: id,
            into: [group.standIn!],
            ...(id === folded.carrier.id ? {} : { equalizedAs: folded.carrier.label }),
          })),
        );
        items.push(
          ...group.channels.map((channel) =>
            channel.id === folded.carrier.id ? renamedItem(channel, group, verdict) : lost(channel),
          ),
        );
      }
      const silent = withoutSilentOutputs(context.old, next, verdict);
      next = silent.next;
      items.push(...silent.items);
    }
    return { next, items, questions, folds };
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

/** Crossings that go to the channels beside the one that is no more. */
function movedRoutes(old: Configuration, channel: ProgramChannel, verdict: Verdict): StepItem {
  return {
    outcome: outcomeOf(verdict, "moved"),
    place: place(`channels/${channel.id}`, `Program channel ${channel.label}, crossings`),
    words: verdict.option.words,
    claimsRest: old.presets.flatMap((preset) =>
      preset.routing
        .filter(({ channelId }) => channelId === channel.id)
        .map(({ id }) => `presets/${preset.id}/routing/${id}`),
    ),
    questionId: verdict.question.id,
  };
}

/** Crossings that played a neighbour already and now play the channel too. */
function louderItems(
  louder: readonly { readonly presetId: string; readonly routeId: string }[],
  channel: ProgramChannel,
  verdict: Verdict,
): readonly StepItem[] {
  const addresses = new Set(
    louder.map(({ presetId, routeId }) => `presets/${presetId}/routing/${routeId}/gainDb`),
  );
  return [...addresses].map((address) => ({
    outcome: outcomeOf(verdict, "restaged"),
    place: place(address, `Program channel ${channel.label}, crossing beside it`),
    words: `The crossing now plays what went to ${channel.label} too, added in phase.`,
    claims: [address],
    questionId: verdict.question.id,
  }));
}

/** The first of several channels takes the label that the unit has. */
function renamedItem(channel: ProgramChannel, { standIn }: MissingChannels, verdict: Verdict): StepItem {
  const at = `channels/${channel.id}`;
  return {
    outcome: outcomeOf(verdict, "moved"),
    place: place(at, `Program channel ${channel.label}`),
    words: `It becomes program channel ${standIn}.`,
    claims: [`${at}/id`, `${at}/label`, `${at}/mute`],
    questionId: verdict.question.id,
  };
}

interface Gone {
  readonly old: Configuration;
  readonly next: Configuration;
  readonly channel: ProgramChannel;
  readonly verdict: Verdict;
}

/** A channel that is no more: with its equalizers and shares, and its crossings as far as they did not go elsewhere. */
function goneItem({ old, next, channel, verdict }: Gone): StepItem {
  const at = `channels/${channel.id}`;
  const alive = new Map(
    next.presets.map((preset) => [preset.id, new Set(preset.routing.map(({ id }) => id))]),
  );
  const routes = old.presets.flatMap((preset) =>
    preset.routing
      .filter(({ channelId }) => channelId === channel.id)
      .map(({ id }) => {
        const route = `presets/${preset.id}/routing/${id}`;
        return alive.get(preset.id)?.has(id) === true ? `${route}/channelId` : route;
      }),
  );
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: place(at, `Program channel ${channel.label}`),
    words: `The new unit has no program channel ${channel.label}. ${verdict.option.words}`,
    claimsRest: [
      at,
      ...old.equalizations.map((set) => `equalizations/${set.id}/channels/${channel.id}`),
      ...old.outputs.map((output) => `outputs/${output.id}/mix/${channel.id}`),
      ...routes,
    ],
    questionId: verdict.question.id,
  };
}
