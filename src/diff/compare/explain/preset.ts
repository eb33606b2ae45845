import type { ChannelEq, Configuration, Preset, ResponseEffect } from "../../../model/index.ts";
import { channelName, counted, printNumber, quoted } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { responseWords } from "../response-words.ts";
import { type Scene, subjectAt } from "../scene.ts";
import { at } from "../select.ts";

/** Presets that came or went, their slots, their EQ sets, the fader that they bring. */
export const explainPreset: Explainer = (scene, open) => ({
  drafts: [
    ...at(open, "presets[]").map((change) => cameOrWent(scene, open, change)),
    ...at(open, "presets[].slot").map((change) => slotMoved(scene, change)),
    ...at(open, "presets[].equalizationId").map((change) => otherSet(scene, change)),
    ...at(open, "presets[].faderMark").map((change) => faderMoved(scene, change)),
  ],
});

function presetIn({ presets }: Configuration, id: string): Preset | undefined {
  return presets.find((preset) => preset.id === id);
}

/** With a preset come or go the triggers that recall it: one cause, one finding. */
function cameOrWent(scene: Scene, open: readonly Change[], change: Change): Draft {
  const added = change.kind === "added";
  const preset = presetIn(added ? scene.after : scene.before, change.path[1]!);
  const triggers = at(open, "automation[]").filter(
    (one) => one.kind === change.kind && recalls(scene, one, preset?.id),
  );
  const what = `Preset ${quoted(preset?.label)} (slot ${preset?.slot}, ${preset?.format})`;
  const company = triggers.length === 0 ? "" : `, and ${counted(triggers.length, "trigger")} with it`;
  return {
    code: added ? "preset/added" : "preset/removed",
    kind: "operation",
    severity: added ? "advice" : "warning",
    subject: subjectAt(scene, change.path),
    words: `${what} ${added ? "is new" : "is gone"}${company}.`,
    causes: [change, ...triggers],
  };
}

function recalls(scene: Scene, { kind, path }: Change, presetId: string | undefined): boolean {
  const { automation } = kind === "removed" ? scene.before : scene.after;
  const action = automation.find(({ id }) => id === path[1])?.action;
  return action?.kind === "recall-preset" && action.presetId === presetId;
}

function slotMoved(scene: Scene, change: Change): Draft {
  const [before, after] = valuesOf(change);
  return {
    code: "preset/slot",
    kind: "operation",
    severity: "warning",
    subject: subjectAt(scene, change.path.slice(0, 2)),
    words: `Moved from slot ${before} to slot ${after}: whoever recalls it by number gets another preset.`,
    before: `slot ${before}`,
    after: `slot ${after}`,
    causes: [change],
  };
}

function otherSet(scene: Scene, change: Change): Draft {
  const [before, after] = valuesOf(change).map(String) as [string, string];
  const label = ({ equalizations }: Configuration, id: string): string =>
    equalizations.find((set) => set.id === id)?.label ?? id;
  const [was, is] = [label(scene.before, before), label(scene.after, after)];
  const worst = largestDifference(scene, before, after);
  const sound = worst === undefined ? "" : `; most of all ${worst.channel}, ${responseWords(worst.effect)}`;
  return {
    code: "preset/equalizer",
    kind: "sound",
    severity: "warning",
    subject: subjectAt(scene, change.path.slice(0, 2)),
    alike: JSON.stringify([before, after]),
    words: `Uses EQ set ${quoted(is)} instead of ${quoted(was)}${sound}.`,
    before: quoted(was),
    after: quoted(is),
    effects: worst === undefined ? [] : [worst.effect],
    causes: [change],
  };
}

/** The channel whose sound differs most when one EQ set takes the place of another. */
function largestDifference(
  scene: Scene,
  before: string,
  after: string,
): { readonly channel: string; readonly effect: ResponseEffect } | undefined {
  const channels = scene.after.equalizations.find(({ id }) => id === after)?.channels ?? [];
  const differences = channels.flatMap(({ channelId }: ChannelEq) => {
    const compared = scene.sound.equalizerExchanged(before, after, channelId);
    return compared === undefined ? [] : [{ channel: channelName(scene.after, channelId), effect: compared }];
  });
  return differences.reduce<(typeof differences)[number] | undefined>(
    (best, one) =>
      best === undefined || Math.abs(one.effect.maxDb) > Math.abs(best.effect.maxDb) ? one : best,
    undefined,
  );
}

function faderMoved(scene: Scene, change: Change): Draft {
  const [before, after] = valuesOf(change).map((mark) =>
    typeof mark === "number" ? printNumber(mark, 1) : "left as it is",
  ) as [string, string];
  return {
    code: "preset/fader",
    kind: "operation",
    severity: "warning",
    subject: subjectAt(scene, change.path.slice(0, 2)),
    alike: JSON.stringify([before, after]),
    words: `The fader at recall is ${after} instead of ${before}.`,
    before,
    after,
    causes: [change],
  };
}

function valuesOf(change: Change): readonly [unknown, unknown] {
  return [
    change.kind === "added" ? undefined : change.before,
    change.kind === "removed" ? undefined : change.after,
  ];
}
