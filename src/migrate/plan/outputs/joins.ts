import type {
  Configuration,
  Crossover,
  Limiter,
  Loudspeaker,
  Output,
  Placement,
} from "../../../model/index.ts";
import { printDb, printDbChange, printHz, printMs } from "../../../words/index.ts";
import { joinedLevels } from "./joined-levels.ts";
import type { OutputDifference } from "./output-difference.ts";
import { LOSS, MIRROR, type Reduction, type ReductionBundle } from "./reduction.ts";

/** Arrays on one side of the room that one output can feed together. */
const JOINABLE: readonly (readonly [Placement, Placement])[] = [
  ["surround-left-side", "surround-left-rear"],
  ["surround-right-side", "surround-right-rear"],
];

/** How far the filters of two outputs are apart. */
export type Compare = (into: Output, from: Output) => OutputDifference;

/** A loudspeaker of one way with its output. */
export interface Single {
  readonly output: Output;
  readonly speaker: Loudspeaker;
}

/**
 * Two loudspeakers at the same place that play the same channels: one output can feed both. Where the other side of the
 * room has the like, both sides go together.
 */
export function equalJoins(single: readonly Single[], compare: Compare): readonly ReductionBundle[] {
  const pairsAt = (placement: Placement) => {
    const here = single.filter(({ speaker }) => speaker.placement === placement);
    return here.flatMap((first, index) =>
      here
        .slice(index + 1)
        .flatMap((second) => (isAlike(first.output, second.output) ? [{ first, second }] : [])),
    );
  };
  const rights = new Set(Object.values(MIRROR));
  const placements = [...new Set(single.map(({ speaker }) => speaker.placement))];
  return placements.flatMap((placement) => {
    const mirror = MIRROR[placement];
    const [own, other] = [pairsAt(placement), mirror === undefined ? [] : pairsAt(mirror)];
    if (mirror !== undefined && own.length === other.length) {
      return own.map((pair, index) => equalBundle([pair, other[index]!], compare));
    }
    const matched = rights.has(placement) && pairsAt(leftOf(placement)).length === own.length;
    return matched ? [] : own.map((pair) => equalBundle([pair], compare));
  });
}

function leftOf(placement: Placement): Placement {
  return (Object.keys(MIRROR) as Placement[]).find((left) => MIRROR[left] === placement) ?? placement;
}

function equalBundle(
  pairs: readonly { readonly first: Single; readonly second: Single }[],
  compare: Compare,
): ReductionBundle {
  return joinBundle(
    pairs.map(({ first, second }) => ({ speakers: [first, second], join: joined(first, second) })),
    compare,
    { consequence: "They play the same channels as before.", loss: LOSS.joinEqual * pairs.length },
  );
}

interface Joint {
  readonly speakers: readonly [Single, Single];
  readonly join: Extract<Reduction, { readonly kind: "join" }>;
}

function joinBundle(
  joints: readonly Joint[],
  compare: Compare,
  { consequence, loss }: { readonly consequence: string; readonly loss: number },
): ReductionBundle {
  const nameOf = ({ speakers }: Joint, output: Output) =>
    speakers.find((single) => single.output.id === output.id)!.speaker.label;
  const weakensProtection = joints.some(({ join }) => !guards(join.into, join.from));
  return {
    id: `join-${joints.map(({ join }) => join.from.id).join("-and-")}`,
    words: joints
      .map(
        (joint) =>
          `'${nameOf(joint, joint.join.from)}' is fed by the output of '${nameOf(joint, joint.join.into)}', amplifier inputs in parallel.`,
      )
      .join(" "),
    consequence: [
      consequence,
      ...joints.map((joint) => settingsLost(joint.join, nameOf(joint, joint.join.from), compare)),
      ...(weakensProtection ? ["A filter or limiter that guarded the joined loudspeaker is lost."] : []),
    ].join(" "),
    frees: joints.length,
    loss,
    reductions: joints.map(({ join }) => join),
    weakensProtection,
  };
}

/** Joins two loudspeakers on the output that guards both, if there is one, else on the first. */
function joined(first: Single, second: Single): Extract<Reduction, { readonly kind: "join" }> {
  const swap = !guards(first.output, second.output) && guards(second.output, first.output);
  const [into, from] = swap ? [second, first] : [first, second];
  return { kind: "join", into: into.output, from: from.output };
}

/** Whether an output protects at least as well as another one does. */
function guards(output: Output, other: Output): boolean {
  return (
    guardsCorner(output.highPass, other.highPass) &&
    guardsLimiter(output.limiter, other.limiter) &&
    sameCorner(output.lowPass, other.lowPass)
  );
}

function guardsCorner(corner: Crossover | undefined, other: Crossover | undefined): boolean {
  if (other === undefined) return true;
  return corner !== undefined && corner.order >= other.order && corner.frequencyHz >= other.frequencyHz;
}

function guardsLimiter(limiter: Limiter | undefined, other: Limiter | undefined): boolean {
  if (other?.enabled !== true) return true;
  return (
    limiter?.enabled === true &&
    limiter.thresholdDbfs <= other.thresholdDbfs &&
    limiter.attackMs <= other.attackMs
  );
}

function sameCorner(a: Crossover | undefined, b: Crossover | undefined): boolean {
  return a?.family === b?.family && a?.order === b?.order && a?.frequencyHz === b?.frequencyHz;
}

function isAlike(a: Output, b: Output): boolean {
  return a.polarity === b.polarity && sameMix(a, b);
}

function sameMix(a: Output, b: Output): boolean {
  const text = (output: Output) =>
    output.mix
      .map(({ channelId, gainDb }) => `${channelId}:${gainDb}`)
      .sort()
      .join(" ");
  return text(a) === text(b);
}

/** Side and rear array joined, left and right together. */
export function sideJoins(
  configuration: Configuration,
  single: readonly Single[],
  compare: Compare,
): readonly ReductionBundle[] {
  const at = (placement: Placement) => single.filter(({ speaker }) => speaker.placement === placement);
  const joints = JOINABLE.flatMap(([side, rear]): readonly Joint[] => {
    const [sides, rears] = [at(side), at(rear)];
    if (sides.length !== 1 || rears.length !== 1) return [];
    return [{ speakers: [sides[0]!, rears[0]!], join: joined(sides[0]!, rears[0]!) }];
  });
  if (joints.length === 0 || joints.some(({ join }) => join.into.polarity !== join.from.polarity)) return [];
  const consequence = [
    "Side and rear surround channels are no longer apart: each plays from both arrays, lower from each, so that its level at the seats stays.",
    ...joints.map(({ join }) => levelWords(configuration, join)),
  ].join(" ");
  return [joinBundle(joints, compare, { consequence, loss: LOSS.joinSides })];
}

function levelWords(configuration: Configuration, { into, from }: Joint["join"]): string {
  const { intoChangeDb, fromChangeDb } = joinedLevels(configuration, into, from);
  return `On output '${into.label}' its own channels change by ${printDbChange(intoChangeDb, 1)}, those of '${from.label}' by ${printDbChange(fromChangeDb, 1)}.`;
}

/** Differences below these are not told: no unit sets them. */
const SAME_DB = 0.05;
const SAME_MS = 0.005;

/** What becomes of the loudspeaker that plays with the settings of another one's output from now on. */
function settingsLost({ into, from }: Joint["join"], name: string, compare: Compare): string {
  const delayMs = from.delayMs - into.delayMs;
  const gainDb = from.gainDb - into.gainDb;
  const filters = compare(into, from);
  const changes = [
    ...(filters.rmsDb < SAME_DB && Math.abs(filters.maxDb) < SAME_DB
      ? []
      : [
          `its filters change it by up to ${printDbChange(filters.maxDb, 1)} at ${printHz(filters.maxAtHz)}, ${printDb(filters.rmsDb, 1)} rms`,
        ]),
    ...(Math.abs(delayMs) < SAME_MS
      ? []
      : [
          `it had ${printMs(Math.abs(delayMs), 2)} ${delayMs > 0 ? "more" : "less"} delay, which is asked about if this is chosen`,
        ]),
    ...(Math.abs(gainDb) < SAME_DB
      ? []
      : [`the ${printDb(Math.abs(gainDb), 1)} between the outputs are made up for`]),
  ];
  return changes.length === 0
    ? `'${name}' was set like output '${into.label}': nothing else changes.`
    : `'${name}' then has the settings of output '${into.label}': ${changes.join("; ")}.`;
}
