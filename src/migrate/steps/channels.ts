import type { Configuration, Fold, ProgramChannel, Question } from "../../model/index.ts";
import { foldChannels, withoutChannels } from "../channels/fold.ts";
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
      const verdict = ask(context, questionOf(old, group));
      if (verdict.option.id === "leave-out") {
        next = withoutChannels(next, new Set(group.channels.map(({ id }) => id)));
        items.push(...group.channels.map((channel) => goneItem({ old, next, channel, verdict })));
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
            channel.id === folded.carrier.id
              ? renamedItem(channel, group, verdict)
              : goneItem({ old, next, channel, verdict }),
          ),
        );
      }
      questions.push(verdict.question);
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

function questionOf(old: Configuration, { channels: group, standIn }: MissingChannels): Question {
  const labels = group.map(({ label }) => label).join(" and ");
  const ids = new Set(group.map(({ id }) => id));
  const presets = old.presets.filter(({ routing }) =>
    routing.some(({ channelId }) => ids.has(channelId)),
  ).length;
  const outputs = old.outputs.filter(({ mix }) => mix.some(({ channelId }) => ids.has(channelId))).length;
  const numbers = { presets, outputs };
  const play = `play-as-${standIn}`;
  return {
    id: `channels/${group[0]!.id}`,
    place: place(`channels/${group[0]!.id}`, `Program channel ${labels}`),
    words: `The new unit has no program channel${group.length === 1 ? "" : "s"} ${labels}. What becomes of ${group.length === 1 ? "it" : "them"}?`,
    options: [
      ...(standIn === undefined
        ? []
        : [
            {
              id: play,
              words: `${labels} ${group.length === 1 ? "is" : "are"} played through ${standIn}.`,
              consequence: `Every loudspeaker keeps playing. Where side and rear were apart they no longer are; what then plays from more loudspeakers is lowered by 3 dB in each. One equalizer serves all of them. ${presets} presets and ${outputs} outputs are concerned.`,
              numbers,
            },
          ]),
      {
        id: "leave-out",
        words: `${labels} ${group.length === 1 ? "is" : "are"} left out.`,
        consequence: `What ${presets} presets send there is heard no more; ${outputs} outputs lose that feed.`,
        numbers,
      },
    ],
    ...(standIn === undefined
      ? {}
      : { recommended: { optionId: play, reason: "every loudspeaker keeps playing." } }),
    unanswered:
      standIn === undefined
        ? { optionId: "leave-out", words: "What it plays is left out." }
        : { optionId: play, words: `The plan plays it through ${standIn}.` },
  };
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
