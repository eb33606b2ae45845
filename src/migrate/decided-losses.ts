import type { Configuration, Feed, Output } from "../model/index.ts";
import type { Plan } from "./plan.ts";

/** Something that the new configuration leaves out, or plays otherwise, because somebody decided so. */
export type DecidedLoss =
  | { readonly kind: "preset"; readonly presetId: string }
  | { readonly kind: "source"; readonly sourceId: string }
  | { readonly kind: "channel"; readonly label: string }
  | { readonly kind: "loudspeaker"; readonly loudspeakerId: string }
  | { readonly kind: "feed"; readonly feed: Exclude<Feed["kind"], "loudspeaker" | "spare"> }
  | { readonly kind: "joined"; readonly loudspeakerId: string; readonly intoLoudspeakerId: string }
  | { readonly kind: "setting"; readonly setting: LostSetting; readonly feedId?: string };

type LostSetting =
  | "high-pass"
  | "low-pass"
  | "fir"
  | "limiter"
  | "mute"
  | "emergency-mute"
  | "paging"
  | "fader";

/**
 * What a plan's decisions give up, for a proof to tell it apart from what is missing by mistake. Empty while decisions are
 * missing: nothing is excused before somebody has decided.
 */
export function decidedLosses(plan: Plan, old: Configuration): readonly DecidedLoss[] {
  if (!plan.decided) return [];
  const { configuration: now } = plan;
  const missing = <T extends { readonly id: string }>(before: readonly T[], after: readonly T[]) =>
    before.filter(({ id }) => !after.some((item) => item.id === id));
  const joined = new Set(plan.joins.map(({ loudspeakerId }) => loudspeakerId));
  return [
    ...missing(old.presets, now.presets).map(({ id }) => ({ kind: "preset" as const, presetId: id })),
    ...missing(old.sources, now.sources).map(({ id }) => ({ kind: "source" as const, sourceId: id })),
    ...old.channels
      .filter(({ label }) => !now.channels.some((channel) => channel.label === label))
      .map(({ label }) => ({ kind: "channel" as const, label })),
    ...plan.joins.map((join) => ({ kind: "joined" as const, ...join })),
    ...missing(old.loudspeakers, now.loudspeakers)
      .filter(({ id }) => !joined.has(id))
      .map(({ id }) => ({ kind: "loudspeaker" as const, loudspeakerId: id })),
    ...missing(old.outputs, now.outputs).flatMap(({ feeds }) =>
      feeds.kind === "loudspeaker" || feeds.kind === "spare"
        ? []
        : [{ kind: "feed" as const, feed: feeds.kind }],
    ),
    ...decidedSettings(plan, old),
  ];
}

const SETTINGS: Readonly<Record<string, LostSetting>> = {
  highPass: "high-pass",
  lowPass: "low-pass",
  fir: "fir",
  limiter: "limiter",
};

/** Settings of an output, or of the whole unit, on which somebody decided. */
function decidedSettings(plan: Plan, old: Configuration): readonly DecidedLoss[] {
  const outputs = new Map(old.outputs.map((output) => [output.id, output]));
  return plan.questions.flatMap((question): readonly DecidedLoss[] => {
    if (question.id === "operation/emergencyMute") return [{ kind: "setting", setting: "emergency-mute" }];
    if (question.id === "operation/paging") return [{ kind: "setting", setting: "paging" }];
    if (question.id === "operation/faderMarks") return [{ kind: "setting", setting: "fader" }];
    const [list, id, member] = question.id.split("/");
    const output = list === "outputs" ? outputs.get(id ?? "") : undefined;
    const setting = SETTINGS[member ?? ""];
    if (output === undefined || setting === undefined) return [];
    const feedId = feedIdOf(output);
    const own: DecidedLoss = { kind: "setting", setting, feedId };
    return question.answer?.optionId === "mute-output"
      ? [own, { kind: "setting", setting: "mute", feedId }]
      : [own];
  });
}

/** Loudspeaker and way, or the kind of the feed. */
function feedIdOf({ feeds }: Output): string {
  return feeds.kind === "loudspeaker" ? `${feeds.loudspeakerId}/${feeds.wayId}` : feeds.kind;
}
