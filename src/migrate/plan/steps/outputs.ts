import type { Configuration, ConnectorKind, Join, Output, Question } from "../../../model/index.ts";
import { assignCables, type PlacedCable } from "../cables/assign-cables.ts";
import { plugWords, socketsOf } from "../cables/socket.ts";
import { compareText } from "../order.ts";
import { applyReduction, type Reduced } from "../outputs/apply-reduction.ts";
import { joinedDelay } from "../outputs/joined-delay.ts";
import { withinMix } from "../outputs/mix-limit.ts";
import { connectorOf, outputCable, outputCables } from "../outputs/output-cables.ts";
import { carryPolarity } from "../outputs/polarity.ts";
import type { ReductionBundle } from "../outputs/reduction.ts";
import { reductionSets, reductionsOf } from "../outputs/reductions.ts";
import { ask, outcomeOf, type Step, type StepContext, type StepItem, type Verdict } from "../step.ts";
import { place } from "../words.ts";

/** Outputs and the connectors that they leave by; the loudspeakers that they feed. */
export const outputs: Step = {
  name: "outputs",
  run: (context) => {
    const assigned = assign(context);
    const plugged = plugIn(context, assigned.next, assigned.placed);
    const mixed = withinMix(context, plugged.next);
    const polarity = carryPolarity(context, mixed.next);
    return {
      next: polarity.next,
      items: [
        ...assigned.items,
        ...plugged.items,
        ...mixed.items,
        ...polarity.items,
        ...loudspeakerItems(context, polarity.next),
      ],
      questions: [...assigned.questions, ...mixed.questions, ...polarity.questions],
      joins: assigned.joins,
      cables: assigned.placed.map((item) => outputCable(item, context.old.outputs, context.words)),
    };
  },
};

interface Assigned {
  readonly next: Configuration;
  readonly placed: readonly PlacedCable[];
  readonly items: readonly StepItem[];
  readonly questions: readonly Question[];
  readonly joins: readonly Join[];
}

/** Assigns connectors; where there are too few of a kind, asks which outputs to do without and assigns again. */
function assign(context: StepContext): Assigned {
  const { next, from, to, decisions } = context;
  const wishes = decisions?.connectors ?? [];
  const sockets = socketsOf(to);
  const first = assignCables({ cables: outputCables(next, from), sockets, wishes });
  const short = first.filter(({ socket, cable }) => socket === undefined && cable.required);
  if (short.length === 0) return { next, placed: first, items: [], questions: [], joins: [] };
  const kinds = [...new Set(short.map(({ cable }) => cable.socket.kind))].sort(compareText);
  let configuration = next;
  const items: StepItem[] = [];
  const questions: Question[] = [];
  const joins: Join[] = [];
  for (const kind of kinds) {
    const needed = short.filter(({ cable }) => cable.socket.kind === kind).length;
    const delays: Question[] = [];
    const asked = askForRoom({ ...context, next: configuration }, kind, needed);
    for (const bundle of asked.bundles) {
      for (const reduction of bundle.reductions) {
        const reduced = applyReduction(configuration, reduction);
        items.push(...reducedItems(reduced, bundle, asked.verdict));
        configuration = reduced.next;
        joins.push(...reduced.joins);
        if (reduction.kind !== "join") continue;
        const delay = joinedDelay(context, configuration, reduction);
        configuration = delay.next;
        items.push(...delay.items);
        delays.push(...delay.questions);
      }
    }
    questions.push(asked.verdict.question, ...delays);
  }
  const placed = assignCables({ cables: outputCables(configuration, from), sockets, wishes });
  return { next: configuration, placed, items, questions, joins };
}

function askForRoom(
  context: StepContext,
  kind: ConnectorKind,
  needed: number,
): { readonly verdict: Verdict; readonly bundles: readonly ReductionBundle[] } {
  const { next, from } = context;
  const kindOf = new Map(from.connectors.map((connector) => [connector.id, connector.kind]));
  const used = next.outputs.filter(
    ({ connectorId, feeds }) => kindOf.get(connectorId) === kind && feeds.kind !== "spare",
  );
  const sets = reductionSets(reductionsOf(next, used, from), needed);
  const everything: ReductionBundle = {
    id: "leave-out-what-finds-no-room",
    words: "Loudspeakers that find no connector stay silent as a whole.",
    consequence: "What they play is not heard at all.",
    frees: needed,
    loss: Number.MAX_SAFE_INTEGER,
    weakensProtection: false,
    reductions: [{ kind: "leave-out", outputs: lastLoudspeakers(next, used, needed) }],
  };
  const weakens = (bundles: readonly ReductionBundle[]) => bundles.some((bundle) => bundle.weakensProtection);
  const all = sets.some((bundles) => !weakens(bundles)) ? sets : [...sets, [everything]];
  const best = all.find((bundles) => !weakens(bundles))!;
  const idOf = (bundles: readonly ReductionBundle[]) => bundles.map(({ id }) => id).join("+");
  const question: Question = {
    id: `outputs/room-${kind}`,
    place: place("outputs", "Outputs"),
    words: `The new unit has ${needed} ${kind} outputs too few. What shall be done without?`,
    options: all.map((bundles) => ({
      id: idOf(bundles),
      words: bundles.map(({ words }) => words).join(" "),
      consequence: bundles.map(({ consequence }) => consequence).join(" "),
      numbers: { outputsFreed: bundles.reduce((sum, { frees }) => sum + frees, 0) },
      ...(weakens(bundles) ? { weakensProtection: true } : {}),
    })),
    recommended: { optionId: idOf(best), reason: "least is missed at the seats." },
    unanswered: { optionId: idOf(best), words: "The plan takes the recommended way." },
  };
  const verdict = ask(context, question);
  return { verdict, bundles: all.find((bundles) => idOf(bundles) === verdict.option.id)! };
}

/** Whole loudspeakers from the end of the rear panel, until enough outputs are free. */
function lastLoudspeakers(
  configuration: Configuration,
  used: readonly Output[],
  needed: number,
): readonly Output[] {
  const gone: Output[] = [];
  for (const output of used.toReversed()) {
    if (gone.length >= needed) break;
    if (gone.includes(output)) continue;
    const { feeds } = output;
    gone.push(
      ...(feeds.kind === "loudspeaker"
        ? configuration.outputs.filter(
            (other) =>
              other.feeds.kind === "loudspeaker" && other.feeds.loudspeakerId === feeds.loudspeakerId,
          )
        : [output]),
    );
  }
  return gone;
}

function reducedItems(reduced: Reduced, bundle: ReductionBundle, verdict: Verdict): readonly StepItem[] {
  return [
    {
      outcome: outcomeOf(verdict, "lost"),
      place: place(reduced.gone[0] ?? "outputs", "Outputs"),
      words: bundle.words,
      claimsRest: reduced.gone,
      questionId: verdict.question.id,
    },
    ...(reduced.restaged.length === 0
      ? []
      : [
          {
            outcome: outcomeOf(verdict, "restaged"),
            place: place(reduced.gone[0] ?? "outputs", "Outputs"),
            words:
              "Gains are changed so that what now plays from two arrays is as loud at the seats as before.",
            claims: reduced.restaged,
            questionId: verdict.question.id,
          },
        ]),
  ];
}

function plugIn(context: StepContext, configuration: Configuration, placed: readonly PlacedCable[]) {
  const { from, to, words } = context;
  const items: StepItem[] = [];
  const connectors = new Map<string, string>();
  for (const output of configuration.outputs) {
    const at = `outputs/${output.id}`;
    const found = connectorOf(output, placed, from);
    if (found.connectorId === undefined) {
      items.push({
        outcome: "lost",
        place: place(at, words.output(output)),
        words: "No connector is left for this spare output; nothing is connected to it.",
        claimsRest: [at],
      });
      continue;
    }
    connectors.set(output.id, found.connectorId);
    const was = from.connectors.find(({ id }) => id === output.connectorId)!;
    const now = to.connectors.find(({ id }) => id === found.connectorId)!;
    items.push(
      {
        outcome: "kept",
        place: place(at, words.output(output)),
        words: "It feeds the same loudspeaker or line as before.",
        claims: [`${at}/id`, `${at}/feeds`],
      },
      {
        outcome: was.id === now.id ? "kept" : "moved",
        place: place(`${at}/connectorId`, words.output(output)),
        words: found.placed.moved
          ? `The cable moves from ${plugWords(was)} to ${plugWords(now)}.`
          : `The cable stays in its place: ${plugWords(now)}.`,
        numbers: { cableMoved: found.placed.moved },
        claims: [`${at}/connectorId`],
      },
    );
  }
  return {
    next: {
      ...configuration,
      outputs: configuration.outputs
        .filter(({ id }) => connectors.has(id))
        .map((output) => ({ ...output, connectorId: connectors.get(output.id)! })),
    },
    items,
  };
}

/** Loudspeakers are in the room and stay as they are. One that was joined to another is accounted for already. */
function loudspeakerItems({ old, claimed }: StepContext, next: Configuration): readonly StepItem[] {
  const there = new Map(next.loudspeakers.map((speaker) => [speaker.id, speaker]));
  return old.loudspeakers.flatMap((speaker) => {
    const at = `loudspeakers/${speaker.id}`;
    const now = there.get(speaker.id);
    if (now === undefined || claimed.has(`${at}/id`)) return [];
    return [
      ...(now.boxes === speaker.boxes
        ? []
        : [
            {
              outcome: "moved" as const,
              place: place(`${at}/boxes`, speaker.label),
              words: `Its ${speaker.boxes} cabinets are fed together with those of another array, ${now.boxes} in all.`,
              numbers: { from: speaker.boxes, to: now.boxes },
              claims: [`${at}/boxes`],
            },
          ]),
      {
        outcome: "kept" as const,
        place: place(at, speaker.label),
        words: "The loudspeaker stays as it is.",
        claimsRest: [at],
      },
    ];
  });
}
