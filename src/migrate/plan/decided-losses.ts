import type {
  Action,
  Cable,
  Configuration,
  Crossover,
  DecidedValues,
  Feed,
  Limiter,
  Output,
  Question,
} from "../../model/index.ts";
import type { Plan } from "./plan.ts";

/** Something that the new configuration leaves out, or plays otherwise, because somebody decided so. */
export type DecidedLoss =
  | { readonly kind: "preset"; readonly presetId: string }
  | { readonly kind: "source"; readonly sourceId: string }
  | { readonly kind: "source-channel"; readonly sourceId: string; readonly sourceChannelId: string }
  | { readonly kind: "channel"; readonly label: string }
  | {
      readonly kind: "folded";
      readonly label: string;
      readonly into: readonly string[];
      readonly equalizedAs?: string;
    }
  | {
      readonly kind: "crossing";
      readonly presetId: string;
      readonly sourceChannelId: string;
      readonly channel: string;
    }
  | { readonly kind: "equalization"; readonly presetId: string; readonly equalizationId: string }
  | { readonly kind: "loudspeaker"; readonly loudspeakerId: string }
  | { readonly kind: "feed"; readonly feed: Exclude<Feed["kind"], "loudspeaker" | "spare"> }
  | { readonly kind: "share"; readonly feedId: string; readonly channel: string }
  | { readonly kind: "joined"; readonly loudspeakerId: string; readonly intoLoudspeakerId: string }
  | { readonly kind: "polarity"; readonly feedId: string; readonly decided: Output["polarity"] }
  | { readonly kind: "later"; readonly feedId: string; readonly byMs: number }
  /** A line of the re-patch sheet; null: unplugged. */
  | {
      readonly kind: "cable";
      readonly direction: Cable["direction"];
      readonly fromConnectorId: string;
      readonly toConnectorId: string | null;
    }
  | DecidedSetting;

/** A setting with the value that was decided; null: none. `muted`: any value, as long as its output is muted. */
type DecidedSetting = {
  readonly kind: "setting";
  /** As in the answer. */
  readonly accepts?: "weaker-protection";
} & (
  | {
      readonly setting: "high-pass" | "low-pass";
      readonly feedId: string;
      readonly decided: Crossover | null | "muted";
    }
  | { readonly setting: "limiter"; readonly feedId: string; readonly decided: Limiter | null | "muted" }
  | { readonly setting: "fir"; readonly feedId: string; readonly decided: null | "muted" }
  | { readonly setting: "mute"; readonly feedId: string; readonly decided: true }
  | {
      readonly setting: "fader";
      readonly presetId?: string;
      readonly automationId?: string;
      readonly decided: number;
    }
  | { readonly setting: "emergency-mute" | "paging" | "non-sync"; readonly decided: null }
  | { readonly setting: "slot"; readonly presetId: string; readonly decided: number }
  | { readonly setting: "start-preset"; readonly decided: string | null }
  | { readonly setting: "automation"; readonly automationId: string; readonly decided: Action | null }
);

/**
 * What a plan's decisions give up or change, for a proof to tell it apart from what is missing by mistake. Empty while
 * decisions are missing: nothing is excused before somebody has decided. Only what an item of the plan counts as lost is
 * given up: what the new configuration merely lacks is not. Values come from the answers that were chosen, never from the
 * new configuration, which has to have them.
 */
export function decidedLosses(plan: Plan, old: Configuration): readonly DecidedLoss[] {
  if (!plan.decided) return [];
  const claimed = (outcome: "lost" | "moved") =>
    new Set(plan.items.filter((item) => item.outcome === outcome).flatMap(({ claims }) => claims));
  const [lost, moved] = [claimed("lost"), claimed("moved")];
  const joined = new Set(plan.joins.map(({ loudspeakerId }) => loudspeakerId));
  const labels = new Map(old.channels.map(({ id, label }) => [id, label]));
  const folds = foldedChannels(plan, old);
  const folded = new Set(folds.map(({ label }) => label));
  const isFolded = (channelId: string) => (folded as ReadonlySet<string>).has(labels.get(channelId) ?? "");
  return [
    ...old.presets.flatMap((preset): readonly DecidedLoss[] => {
      const at = `presets/${preset.id}`;
      if (lost.has(`${at}/id`)) return [{ kind: "preset", presetId: preset.id }];
      const now = plan.configuration.presets.find(({ id }) => id === preset.id);
      return [
        ...preset.routing
          .filter(({ id, channelId }) => lost.has(`${at}/routing/${id}/id`) && !isFolded(channelId))
          .map(
            ({ sourceChannelId, channelId }): DecidedLoss => ({
              kind: "crossing",
              presetId: preset.id,
              sourceChannelId,
              channel: labels.get(channelId) ?? "",
            }),
          ),
        ...(now !== undefined && moved.has(`${at}/equalizationId`)
          ? [{ kind: "equalization" as const, presetId: preset.id, equalizationId: now.equalizationId }]
          : []),
      ];
    }),
    ...old.sources.flatMap(({ id, channels }): readonly DecidedLoss[] =>
      lost.has(`sources/${id}/id`)
        ? [{ kind: "source", sourceId: id }]
        : channels
            .filter((channel) => lost.has(`sources/${id}/channels/${channel.id}/id`))
            .map((channel) => ({ kind: "source-channel", sourceId: id, sourceChannelId: channel.id })),
    ),
    ...folds,
    ...old.channels
      .filter(({ id, label }) => lost.has(`channels/${id}/label`) && !folded.has(label))
      .map(({ label }) => ({ kind: "channel" as const, label })),
    ...plan.joins.map((join) => ({ kind: "joined" as const, ...join })),
    ...old.loudspeakers
      .filter(({ id }) => lost.has(`loudspeakers/${id}/id`) && !joined.has(id))
      .map(({ id }) => ({ kind: "loudspeaker" as const, loudspeakerId: id })),
    ...old.outputs.flatMap((output): readonly DecidedLoss[] => {
      const { id, feeds, mix } = output;
      if (feeds.kind === "spare") return [];
      if (lost.has(`outputs/${id}/id`)) {
        return feeds.kind === "loudspeaker" ? [] : [{ kind: "feed", feed: feeds.kind }];
      }
      return [
        ...mix
          .filter(
            ({ channelId }) => lost.has(`outputs/${id}/mix/${channelId}/channelId`) && !isFolded(channelId),
          )
          .map(
            ({ channelId }): DecidedLoss => ({
              kind: "share",
              feedId: feedIdOf(output),
              channel: labels.get(channelId) ?? "",
            }),
          ),
        ...laterBy(plan, id).map((byMs): DecidedLoss => ({ kind: "later", feedId: feedIdOf(output), byMs })),
        ...(lost.has(`outputs/${id}/polarity`)
          ? [{ kind: "polarity" as const, feedId: feedIdOf(output), decided: "normal" as const }]
          : []),
      ];
    }),
    ...decidedSettings(plan, old),
    ...decidedAutomation(plan),
    ...cablesOf(plan),
  ];
}

/** Where the cables of the re-patch sheet go, circuit by circuit. */
function cablesOf({ cables }: Plan): readonly DecidedLoss[] {
  return cables.flatMap(({ direction, from, to }) =>
    from.map(({ connectorId }, circuit) => ({
      kind: "cable",
      direction,
      fromConnectorId: connectorId,
      toConnectorId: to[circuit]?.connectorId ?? null,
    })),
  );
}

/** Automation items that are left out or recall another preset: those of which an item of the plan says so. */
function decidedAutomation({ items, questions }: Plan): readonly DecidedLoss[] {
  return items.flatMap(({ step, outcome, claims, questionId }): readonly DecidedLoss[] => {
    const question = questions.find(({ id }) => id === questionId);
    if (step !== "automation" || question === undefined) return [];
    const automationId = claims.map((claim) => /^automation\/([^/]+)\/id$/.exec(claim)?.[1]).find(Boolean);
    if (automationId === undefined) return [];
    const presetId = chosenValues(question)?.recallPresetId;
    if (outcome === "lost") return [{ kind: "setting", setting: "automation", automationId, decided: null }];
    if (outcome !== "moved" || presetId === undefined) return [];
    const decided = { kind: "recall-preset", presetId } as const;
    return [{ kind: "setting", setting: "automation", automationId, decided }];
  });
}

/** By how much an output plays later than before because somebody decided which delay it shares. */
function laterBy({ questions }: Plan, outputId: string): readonly number[] {
  const asked = questions.filter(({ id }) => id === `outputs/${outputId}/joinedDelay`);
  return asked.flatMap(({ answer, options }) => {
    const laterMs = options.find(({ id }) => id === answer?.optionId)?.numbers.laterMs;
    return typeof laterMs === "number" && laterMs !== 0 ? [laterMs] : [];
  });
}

/** Program channels that play through others, by the answers to the questions about them. */
function foldedChannels({ folds = [] }: Plan, { channels }: Configuration) {
  return folds.map(({ channelId, into, equalizedAs }) => ({
    kind: "folded" as const,
    label: channels.find(({ id }) => id === channelId)!.label,
    into,
    ...(equalizedAs === undefined ? {} : { equalizedAs }),
  }));
}

/** Settings of an output, or of the whole unit, on which somebody decided. */
function decidedSettings(plan: Plan, old: Configuration): readonly DecidedLoss[] {
  const outputs = new Map(old.outputs.map((output) => [output.id, output]));
  return plan.questions.flatMap((question): readonly DecidedLoss[] => {
    const accepts = question.answer?.accepts;
    const word = accepts === undefined ? {} : { accepts };
    const unit = UNIT_SETTINGS[question.id];
    if (unit !== undefined) return [{ kind: "setting", setting: unit, decided: null, ...word }];
    const sets = chosenValues(question);
    if (sets?.faderMarks !== undefined) {
      return sets.faderMarks.map(({ faderMark, ...of }) => ({
        kind: "setting",
        setting: "fader",
        decided: faderMark,
        ...of,
      }));
    }
    if (sets?.slots !== undefined) {
      return sets.slots.map(({ presetId, slot }) => ({
        kind: "setting",
        setting: "slot",
        presetId,
        decided: slot,
      }));
    }
    if (sets?.startPresetId !== undefined) {
      return [{ kind: "setting", setting: "start-preset", decided: sets.startPresetId }];
    }
    const [list, id, member] = question.id.split("/");
    const output = list === "outputs" ? outputs.get(id ?? "") : undefined;
    if (output === undefined || sets === undefined) return [];
    const feedId = feedIdOf(output);
    const own = ownSetting(member, feedId, sets);
    if (own === undefined) return [];
    return sets.mute === true
      ? [own, { kind: "setting", setting: "mute", feedId, decided: true }]
      : [{ ...own, ...word }];
  });
}

const UNIT_SETTINGS: Readonly<Record<string, "emergency-mute" | "paging" | "non-sync">> = {
  "operation/emergencyMute": "emergency-mute",
  "operation/paging": "paging",
  "operation/nonSync": "non-sync",
};

function chosenValues({ answer, options }: Question): DecidedValues | undefined {
  return options.find(({ id }) => id === answer?.optionId)?.sets;
}

/** The setting that a question is about, with the value that the chosen answer gives it. */
function ownSetting(
  member: string | undefined,
  feedId: string,
  { crossover, limiter, fir, mute }: DecidedValues,
): DecidedSetting | undefined {
  const of = <Value>(value: Value | undefined) => (mute === true ? ("muted" as const) : value);
  const [filter, guard, taps] = [of(crossover), of(limiter), of(fir)];
  if (member === "highPass" || member === "lowPass") {
    const setting = member === "highPass" ? "high-pass" : "low-pass";
    return filter && { kind: "setting", setting, feedId, decided: filter };
  }
  if (member === "limiter" && guard !== undefined) {
    return { kind: "setting", setting: "limiter", feedId, decided: guard };
  }
  return member === "fir" && taps !== undefined
    ? { kind: "setting", setting: "fir", feedId, decided: taps }
    : undefined;
}

/** Loudspeaker and way, or the kind of the feed. */
function feedIdOf({ feeds }: Output): string {
  return feeds.kind === "loudspeaker" ? `${feeds.loudspeakerId}/${feeds.wayId}` : feeds.kind;
}
