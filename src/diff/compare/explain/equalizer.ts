import type { ResponseEffect } from "../../../model/index.ts";
import { channelName, listed, printDb, quoted } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import { changedSettings } from "../equalizer-settings.ts";
import type { Explainer } from "../explainer.ts";
import { isQuietEffect, responseWords } from "../response-words.ts";
import { type Scene, subjectAt } from "../scene.ts";
import { at, byItem, within } from "../select.ts";
import type { ComparedResponse } from "../sound.ts";

/** From this largest difference in dB, or this change of C-weighted level, on a change is likely to be heard. */
const AUDIBLE_DB = 1.5;
const AUDIBLE_LEVEL_DB = 0.7;

/** When the equalizers of so many channels of one EQ set changed, each in its own way, the set was aligned anew. */
const RETUNED_CHANNELS = 4;

/**
 * The equalizers of program channels: one finding for each channel of each EQ set, with what became of its response;
 * one for the whole set when it was aligned anew.
 */
export const explainEqualizer: Explainer = (scene, open) => {
  const changed = byItem(within(open, "equalizations[].channels[]"), 4).map((causes) =>
    channelChange(scene, causes),
  );
  const quiet = changed.filter(({ response }) => isQuiet(scene, response));
  const told = changed.filter(({ response }) => !isQuiet(scene, response));
  const sets = [...new Set(told.map(({ setId }) => setId))];
  return {
    drafts: [
      ...wholeSets(scene, open),
      ...sets.flatMap((setId) => {
        const channels = told.filter((one) => one.setId === setId);
        return isRetuned(scene, channels)
          ? [retunedDraft(scene, channels)]
          : channels.map((channel) => channelDraft(scene, channel));
      }),
    ],
    quiet: quiet.flatMap(({ causes }) => causes),
  };
};

/** What changed of the equalizer of one channel in one EQ set. */
interface ChannelChange {
  readonly setId: string;
  readonly set: string;
  readonly channelId: string;
  readonly channel: string;
  readonly response: ComparedResponse | undefined;
  readonly causes: readonly Change[];
}

function channelChange(scene: Scene, causes: readonly Change[]): ChannelChange {
  const [, setId, , channelId] = causes[0]!.path as [string, string, string, string];
  const set = (scene.after.equalizations.find(({ id }) => id === setId) ?? { label: setId }).label;
  const channel = channelName(scene.after, channelId);
  const response = scene.sound.equalizer(setId, channelId, `${channel}, EQ set ${set}`);
  return { setId, set, channelId, channel, response, causes };
}

function isQuiet(scene: Scene, response: ComparedResponse | undefined): boolean {
  return response !== undefined && isQuietEffect(response.effect, scene.tolerances);
}

function isAudible({ maxDb, levelDbC }: ResponseEffect): boolean {
  return Math.abs(maxDb) >= AUDIBLE_DB || Math.abs(levelDbC) >= AUDIBLE_LEVEL_DB;
}

function wholeSets(scene: Scene, open: readonly Change[]): readonly Draft[] {
  return at(open, "equalizations[]").map((change) => {
    const id = change.path[1]!;
    const document = change.kind === "added" ? scene.after : scene.before;
    const used = document.presets.filter(({ equalizationId }) => equalizationId === id);
    const label = document.equalizations.find((set) => set.id === id)?.label;
    const users =
      used.length > 0 ? `used by ${listed(used.map((preset) => preset.label))}` : "used by no preset";
    return {
      code: change.kind === "added" ? "equalizer/set-added" : "equalizer/set-removed",
      kind: "sound",
      severity: used.length > 0 ? "warning" : "advice",
      subject: subjectAt(scene, change.path),
      words: `EQ set ${quoted(label)} ${change.kind === "added" ? "is new" : "is gone"}, ${users}.`,
      causes: [change],
    };
  });
}

function channelDraft(scene: Scene, change: ChannelChange): Draft {
  const { setId, set, channelId, channel, response, causes } = change;
  const path = ["equalizations", setId, "channels", channelId];
  const settings = changedSettings(scene, path, causes);
  const { pointer } = subjectAt(scene, path);
  const unused = isUnused(scene, setId);
  const audible = !unused && (response === undefined || isAudible(response.effect));
  return {
    code: "equalizer/changed",
    kind: "sound",
    severity: audible ? "warning" : "advice",
    subject: {
      words: `${channel}, EQ set ${set}`,
      pointer,
      item: { kind: "channel", id: channelId, of: `EQ set ${set}` },
    },
    alike: JSON.stringify([settings, response?.effect, unused]),
    words: `${settings.words}${response === undefined ? "" : `: ${responseWords(response.effect)}`}${unused ? "; no preset uses it" : ""}.`,
    ...(settings.before === undefined || settings.after === undefined
      ? {}
      : { before: settings.before, after: settings.after }),
    effects: response === undefined ? [] : [response.effect],
    curves: response === undefined ? [] : [response.curve],
    causes,
  };
}

/** Whether nobody can hear it: no preset uses the EQ set. */
function isUnused({ after }: Scene, setId: string): boolean {
  return !after.presets.some(({ equalizationId }) => equalizationId === setId);
}

function isRetuned(scene: Scene, channels: readonly ChannelChange[]): boolean {
  const ways = new Set(channels.map((channel) => channelDraft(scene, channel).alike));
  return ways.size >= RETUNED_CHANNELS;
}

function retunedDraft(scene: Scene, channels: readonly ChannelChange[]): Draft {
  const effects = channels.flatMap(({ channel, response }) =>
    response === undefined ? [] : [{ channel, ...response }],
  );
  const worst = effects.reduce<(typeof effects)[number] | undefined>(
    (best, one) =>
      best === undefined || Math.abs(one.effect.maxDb) > Math.abs(best.effect.maxDb) ? one : best,
    undefined,
  );
  const { setId, set } = channels[0]!;
  const each = effects.map(({ channel, effect }) => `${channel} ${printDb(effect.rmsDb)}`);
  return {
    code: "equalizer/retuned",
    kind: "sound",
    severity:
      effects.length < channels.length || effects.some(({ effect }) => isAudible(effect))
        ? "warning"
        : "advice",
    subject: { ...subjectAt(scene, ["equalizations", setId]), words: `EQ set ${set}` },
    words:
      `Aligned anew in ${channels.length} channels` +
      (worst === undefined ? "" : `; most of all ${worst.channel}, ${responseWords(worst.effect)}`) +
      `. Rms of each: ${listed(each, each.length)}.`,
    effects: worst === undefined ? [] : [worst.effect],
    curves: effects.map(({ curve }) => curve),
    causes: channels.flatMap(({ causes }) => causes),
  };
}
