import type { Configuration, Preset } from "../../../model/index.ts";
import { counted, listed } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { crossingName, type ReachChange, reachChange, reachOf } from "../reach.ts";
import { type Scene, subjectAt } from "../scene.ts";
import { at, byItem } from "../select.ts";

const FIELDS = [
  "presets[].routing[]",
  "presets[].routing[].id",
  "presets[].routing[].sourceChannelId",
  "presets[].routing[].channelId",
  "presets[].sourceId",
  "presets[].format",
];

/** What a preset plays where: one finding a preset, with the loudspeakers that fall silent or get more. */
export const explainRouting: Explainer = (scene, open) => ({
  drafts: byItem(at(open, ...FIELDS), 2).map((causes) => draftOf(scene, causes)),
});

function draftOf(scene: Scene, causes: readonly Change[]): Draft {
  const id = causes[0]!.path[1]!;
  const find = ({ presets }: Configuration): Preset | undefined => presets.find((preset) => preset.id === id);
  const [before, after] = [find(scene.before), find(scene.after)];
  const reach = reachChange(reachOf(scene.before, before), reachOf(scene.after, after));
  const crossings = [crossingsOf(scene.before, before, after), crossingsOf(scene.after, after, before)];
  const other = [sourceWords(scene, before, after), formatWords(before, after)].filter(
    (words) => words !== "",
  );
  return {
    code: "routing/changed",
    kind: "routing",
    severity: "warning",
    subject: subjectAt(scene, ["presets", id]),
    alike: JSON.stringify([crossings, reach, other]),
    words: [...other, routingWords(crossings.map((list) => list.length)), reachWords(reach)]
      .filter((words) => words !== "")
      .join(" "),
    before: listed(crossings[0]!) || "none",
    after: listed(crossings[1]!) || "none",
    effects: [{ kind: "reach", ...reach }],
    causes,
  };
}

/** The crossings of a preset that the other one has not. */
function crossingsOf(
  configuration: Configuration,
  preset: Preset | undefined,
  other: Preset | undefined,
): readonly string[] {
  const same = (a: Preset["routing"][number], b: Preset["routing"][number]): boolean =>
    a.sourceChannelId === b.sourceChannelId && a.channelId === b.channelId;
  return (preset?.routing ?? [])
    .filter((route) => !(other?.routing ?? []).some((one) => same(route, one)))
    .map((route) => crossingName(configuration, route));
}

function sourceWords(scene: Scene, before: Preset | undefined, after: Preset | undefined): string {
  if (before?.sourceId === after?.sourceId) return "";
  const name = ({ sources }: Configuration, id: string | undefined): string =>
    sources.find((source) => source.id === id)?.label ?? String(id);
  return `Plays from ${name(scene.after, after?.sourceId)} instead of ${name(scene.before, before?.sourceId)}.`;
}

function formatWords(before: Preset | undefined, after: Preset | undefined): string {
  return before?.format === after?.format
    ? ""
    : `The format is ${after?.format} instead of ${before?.format}.`;
}

function routingWords([gone = 0, fresh = 0]: readonly number[]): string {
  if (gone === 0 && fresh === 0) return "";
  if (gone === 0) return `${counted(fresh, "crossing is", "crossings are")} new.`;
  if (fresh === 0) return `${counted(gone, "crossing is", "crossings are")} gone.`;
  return `${counted(gone, "crossing gives", "crossings give")} way to ${fresh} other.`;
}

/** "Left Side Surround falls silent; Sub 1 gets more signals than before." */
export function reachWords({ silent, added, doubled }: ReachChange): string {
  const parts = [
    ...(silent.length > 0 ? [`${listed(silent)} ${silent.length > 1 ? "fall" : "falls"} silent`] : []),
    ...(added.length > 0 ? [`${listed(added)} ${added.length > 1 ? "play" : "plays"} now`] : []),
    ...(doubled.length > 0
      ? [`${listed(doubled)} ${doubled.length > 1 ? "get" : "gets"} more signals than before`]
      : []),
  ];
  return parts.length === 0 ? "" : `${parts.join("; ")}.`;
}
