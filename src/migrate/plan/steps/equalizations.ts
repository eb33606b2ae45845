import type { ChannelEq, Configuration, EqFitReport, EqSet, Question } from "../../../model/index.ts";
import { printDb } from "../../../words/index.ts";
import { carryEqualizer } from "../equalizers/carry-equalizer.ts";
import { setDifferences } from "../equalizers/set-difference.ts";
import { leaveOut } from "../leave-out.ts";
import { outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** EQ sets: how many, and each channel's equalizer by the new unit's filters. */
export const equalizations: Step = {
  name: "equalizations",
  run: (context) => {
    const counted = withinCount(context);
    const carried = carrySets({ ...context, next: counted.next });
    return {
      next: carried.next,
      items: [...counted.items, ...carried.items],
      questions: [...counted.questions, ...carried.questions],
      equalizers: carried.reports,
    };
  },
};

/** Fewer EQ sets: their presets go over to the set that sounds most alike. */
function withinCount(context: StepContext) {
  const { next, to } = context;
  const inOrder = next.equalizations;
  const usedBy = (set: EqSet) => next.presets.filter(({ equalizationId }) => equalizationId === set.id);
  const excess = inOrder.length - to.equalizations.max;
  const difference = excess > 0 ? setDifferences(next, context.from) : () => 0;
  const nearestTo = (set: EqSet, others: readonly EqSet[]) =>
    others
      .filter(({ id }) => id !== set.id)
      .map((other) => ({ other, rmsDb: difference(set.id, other.id) }))
      .sort((a, b) => a.rmsDb - b.rmsDb)[0];
  const ranked =
    excess > 0
      ? [...inOrder]
          .reverse()
          .map((set) => ({ set, uses: usedBy(set).length }))
          .sort((a, b) => a.uses - b.uses)
      : [];
  /** What stays when the first are left out as proposed. */
  const staying = ranked.slice(Math.max(0, excess)).map(({ set }) => set);
  const left = leaveOut(context, {
    questionId: "equalizations/count",
    place: place("equalizations", "EQ sets"),
    things: "EQ sets",
    max: to.equalizations.max,
    count: inOrder.length,
    candidates: ranked.map(({ set, uses }) => {
      const nearest = nearestTo(set, staying);
      return {
        id: set.id,
        label: set.label,
        loss:
          uses === 0
            ? "no preset uses it."
            : `${uses === 1 ? "1 preset goes" : `${uses} presets go`} over to '${nearest?.other.label ?? "none"}', which differs by ${printDb(nearest?.rmsDb ?? 0, 2)} rms over all channels.`,
      };
    }),
    reason: "fewest presets use them.",
  });
  const kept = inOrder.filter(({ id }) => !left.ids.has(id));
  const replacement = new Map(
    inOrder
      .filter(({ id }) => left.ids.has(id))
      .map((set) => [set.id, nearestTo(set, kept)?.other.id ?? set.id]),
  );
  return {
    next: {
      ...next,
      equalizations: next.equalizations.filter(({ id }) => !left.ids.has(id)),
      presets: next.presets.map((preset) => ({
        ...preset,
        equalizationId: replacement.get(preset.equalizationId) ?? preset.equalizationId,
      })),
    },
    items: [
      ...inOrder.filter(({ id }) => left.ids.has(id)).map((set) => lostSet(set, left.verdict!)),
      ...next.presets.map((preset): StepItem => {
        const to = replacement.get(preset.equalizationId);
        const at = place(`presets/${preset.id}/equalizationId`, `Preset '${preset.label}', EQ set`);
        if (to === undefined) {
          return { outcome: "kept", place: at, words: "It uses the same EQ set.", claims: [at.address] };
        }
        return {
          outcome: outcomeOf(left.verdict!, "moved"),
          place: at,
          words: `It goes over to the EQ set '${context.words.equalization(to)}'.`,
          claims: [at.address],
          questionId: left.verdict!.question.id,
        };
      }),
    ],
    questions: left.verdict === undefined ? [] : [left.verdict.question],
  };
}

function lostSet(set: EqSet, verdict: Verdict): StepItem {
  return {
    outcome: outcomeOf(verdict, "lost"),
    place: place(`equalizations/${set.id}`, `EQ set '${set.label}'`),
    words: `The unit holds fewer EQ sets: '${set.label}' is left out.`,
    claimsRest: [`equalizations/${set.id}`],
    questionId: verdict.question.id,
  };
}

function carrySets(context: StepContext) {
  const { next, to, decisions, words } = context;
  const items: StepItem[] = [];
  const questions: Question[] = [];
  const reports: EqFitReport[] = [];
  const sets = new Map<string, EqSet>();
  for (const set of next.equalizations) {
    items.push({
      outcome: "kept",
      place: place(`equalizations/${set.id}`, `EQ set '${set.label}'`),
      words: `EQ set '${set.label}' with ${set.channels.length} channels.`,
      claims: [
        `equalizations/${set.id}/id`,
        ...set.channels.map(({ channelId }) => `equalizations/${set.id}/channels/${channelId}/channelId`),
      ],
    });
    const changed = new Map<string, ChannelEq>();
    for (const channel of set.channels) {
      const done = carryEqualizer(context, {
        at: place(
          `equalizations/${set.id}/channels/${channel.channelId}`,
          `EQ set '${set.label}', ${words.channel(channel.channelId)}`,
        ),
        equalizer: {
          ...(channel.graphic === undefined ? {} : { graphic: channel.graphic }),
          parametric: channel.parametric ?? [],
        },
        names: { graphic: "graphic", parametric: "parametric" },
        graphicAbility: to.equalizations.graphic,
        filterAbility: to.equalizations.parametric,
        effort: decisions?.effort ?? "thorough",
      });
      const { graphic, parametric } = done.equalizer;
      changed.set(channel.channelId, {
        channelId: channel.channelId,
        ...(graphic === undefined ? {} : { graphic }),
        ...(parametric.length === 0 && channel.parametric === undefined ? {} : { parametric }),
      });
      items.push(...done.items);
      questions.push(...done.questions);
      if (done.report !== undefined) reports.push(done.report);
    }
    sets.set(set.id, {
      ...set,
      channels: set.channels.map(({ channelId }) => changed.get(channelId)!),
    });
  }
  const now: Configuration = {
    ...next,
    equalizations: next.equalizations.map(({ id }) => sets.get(id)!),
  };
  return { next: now, items, questions, reports };
}
