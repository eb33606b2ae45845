import { octavesBetween } from "../../../base/units/index.ts";
import type { ChangeEffect, Crossover, Output, ProtectionEffect, Way } from "../../../model/index.ts";
import { crossoverInComparison, octavesMoved, printHz } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import { crossingEffects } from "../crossing.ts";
import type { Draft } from "../draft.ts";
import type { Explainer } from "../explainer.ts";
import { loudspeakerFed, outputIn, type Scene, subjectAt } from "../scene.ts";
import { byItem, within } from "../select.ts";
import { isBelowTolerance } from "../tolerance.ts";

/**
 * High-passes and low-passes. Where the low-pass of one way and the high-pass of the next moved together, that is one
 * crossover moved.
 */
export const explainCrossover: Explainer = (scene, open) => {
  const halves = [
    ...within(open, "outputs[].highPass").map((change) => ({ change, side: "highPass" as const })),
    ...within(open, "outputs[].lowPass").map((change) => ({ change, side: "lowPass" as const })),
  ];
  const moved = (["highPass", "lowPass"] as const).flatMap((side) =>
    byItem(
      halves.filter((half) => half.side === side).map(({ change }) => change),
      2,
    ).map((causes) => movedHalf(scene, side, causes)),
  );
  const quiet = moved.filter((half) => isQuiet(scene, half));
  const told = moved.filter((half) => !quiet.includes(half));
  const pairs = told.flatMap((upper) => {
    const lower = upper.side === "highPass" ? told.find((other) => isOtherHalf(upper, other)) : undefined;
    return lower === undefined ? [] : [{ lower, upper }];
  });
  const paired = new Set(pairs.flatMap(({ lower, upper }) => [lower, upper]));
  return {
    drafts: [
      ...pairs.map(({ lower, upper }) => draftOfPair(scene, lower, upper)),
      ...told.filter((half) => !paired.has(half)).map((half) => draftOfHalf(scene, half)),
    ],
    quiet: quiet.flatMap(({ causes }) => causes),
  };
};

/** Moved by less than the tolerance, and not across the limit that the driver's data sheet sets. */
function isQuiet(scene: Scene, half: MovedHalf): boolean {
  const way = wayOf(scene, half);
  return (
    half.causes.every((change) => isBelowTolerance(change, scene.tolerances)) &&
    isUnsafe(half.before, way, half.side) === isUnsafe(half.after, way, half.side)
  );
}

/** One half of a crossover of one output, before and after. */
interface MovedHalf {
  readonly side: "highPass" | "lowPass";
  readonly output: Output;
  readonly loudspeakerId: string | undefined;
  readonly before: Crossover | undefined;
  readonly after: Crossover | undefined;
  readonly causes: readonly Change[];
}

function movedHalf(scene: Scene, side: MovedHalf["side"], causes: readonly Change[]): MovedHalf {
  const id = causes[0]!.path[1]!;
  const { before, after } = outputIn(scene, id);
  return {
    side,
    output: (after ?? before)!,
    loudspeakerId: loudspeakerFed(scene, id),
    before: before?.[side],
    after: after?.[side],
    causes,
  };
}

function isOtherHalf(upper: MovedHalf, lower: MovedHalf): boolean {
  return (
    lower.side === "lowPass" &&
    lower.output.id !== upper.output.id &&
    lower.loudspeakerId !== undefined &&
    lower.loudspeakerId === upper.loudspeakerId &&
    sameSetting(lower.before, upper.before) &&
    sameSetting(lower.after, upper.after)
  );
}

function sameSetting(a: Crossover | undefined, b: Crossover | undefined): boolean {
  return crossoverInComparison(a) === crossoverInComparison(b);
}

function draftOfPair(scene: Scene, lower: MovedHalf, upper: MovedHalf): Draft {
  const [way, other] = [wayOf(scene, lower), wayOf(scene, upper)];
  const of = `crossover ${way?.band ?? "lower"}/${other?.band ?? "upper"}`;
  const upperDraft = draftOfHalf(scene, upper);
  const moved = movement(upper.before, upper.after);
  return {
    ...upperDraft,
    code: "crossover/moved",
    subject: {
      pointer: upperDraft.subject.pointer,
      words: `${loudspeakerName(scene, upper)}, ${of}`,
      item: { kind: "loudspeaker", id: upper.loudspeakerId ?? "", of },
    },
    alike: JSON.stringify([
      "pair",
      way?.band,
      other?.band,
      crossoverInComparison(upper.before),
      crossoverInComparison(upper.after),
    ]),
    words: `Crossover ${moved}${consequence(upper, other)}.`,
    causes: [...lower.causes, ...upper.causes],
  };
}

function draftOfHalf(scene: Scene, half: MovedHalf): Draft {
  const { side, output, before, after, causes } = half;
  const way = wayOf(scene, half);
  const guard = side === "highPass" ? guardOf(before, after) : undefined;
  const name = side === "highPass" ? "High-pass" : "Low-pass";
  const effects: readonly ChangeEffect[] = [
    ...frequencyEffects(before, after),
    ...(guard === undefined ? [] : [{ kind: "protection" as const, guard, guards: "driver" as const }]),
    ...crossingEffects(scene, half.loudspeakerId),
  ];
  const title = `${loudspeakerName(scene, half)}: ways and their sum`;
  const curve = half.loudspeakerId && scene.sound.loudspeakerChange(half.loudspeakerId, title)?.curve;
  return {
    code: side === "highPass" ? "crossover/high-pass" : "crossover/low-pass",
    kind: guard === undefined ? "sound" : "protection",
    severity: guard === "weaker" || guard === "lost" || isUnsafe(after, way, side) ? "error" : "warning",
    subject: subjectAt(scene, ["outputs", output.id]),
    alike: JSON.stringify([side, way?.band, crossoverInComparison(before), crossoverInComparison(after)]),
    words: `${name} ${movement(before, after)}${consequence(half, way)}.`,
    before: crossoverInComparison(before),
    after: crossoverInComparison(after),
    effects,
    ...(guard === "weaker" || guard === "lost"
      ? {
          remedy:
            "Do not play at level: set the high-pass back, or have the loudspeaker's data confirm the new one.",
        }
      : {}),
    ...(curve ? { curves: [curve] } : {}),
    causes,
  };
}

function movement(before: Crossover | undefined, after: Crossover | undefined): string {
  if (before === undefined) return `added at ${crossoverInComparison(after)}`;
  if (after === undefined) return `removed (was ${crossoverInComparison(before)})`;
  const sameSlope =
    before.family === after.family &&
    before.order === after.order &&
    before.normalization === after.normalization;
  if (!sameSlope) return `changed from ${crossoverInComparison(before)} to ${crossoverInComparison(after)}`;
  const octaves = octavesMoved(before.frequencyHz, after.frequencyHz);
  return `moved from ${printHz(before.frequencyHz)} to ${printHz(after.frequencyHz)}, ${octaves}`;
}

function consequence(half: MovedHalf, way: Way | undefined): string {
  if (half.side !== "highPass") return "";
  const guard = guardOf(half.before, half.after);
  const told: Partial<Record<ProtectionEffect["guard"], string>> = {
    weaker: ": the driver is protected less than before",
    lost: ": the driver is not protected any more",
    stronger: ": the driver is protected more than before",
    gained: ": the driver is protected now",
  };
  const unsafe = isUnsafe(half.after, way, half.side)
    ? `, and not as its data sheet asks (${printHz(way?.safeHighPassHz ?? 0)}${
        way?.safeHighPassOrder === undefined ? "" : `, ${6 * way.safeHighPassOrder} dB/octave`
      })`
    : "";
  return `${told[guard] ?? ""}${unsafe}`;
}

function guardOf(before: Crossover | undefined, after: Crossover | undefined): ProtectionEffect["guard"] {
  if (before === undefined) return "gained";
  if (after === undefined) return "lost";
  const higher = Math.sign(after.frequencyHz - before.frequencyHz);
  const steeper = Math.sign(after.order - before.order);
  // A corner that moved one way and a slope that moved the other is judged where the driver suffers: an octave below.
  const sum =
    higher * steeper < 0
      ? Math.sign(attenuationDb(after, before) - attenuationDb(before, before))
      : higher + steeper;
  if (sum < 0) return "weaker";
  return sum > 0 ? "stronger" : "other";
}

/** Attenuation an octave below the old corner, by the slopes alone, in dB. */
function attenuationDb(half: Crossover, old: Crossover): number {
  return 6 * half.order * octavesBetween(old.frequencyHz / 2, half.frequencyHz);
}

function isUnsafe(half: Crossover | undefined, way: Way | undefined, side: MovedHalf["side"]): boolean {
  if (side !== "highPass" || way?.safeHighPassHz === undefined) return false;
  if (half === undefined) return true;
  return half.frequencyHz < way.safeHighPassHz || half.order < (way.safeHighPassOrder ?? 0);
}

function frequencyEffects(
  before: Crossover | undefined,
  after: Crossover | undefined,
): readonly ChangeEffect[] {
  if (before === undefined || after === undefined || before.frequencyHz === after.frequencyHz) return [];
  const [fromHz, toHz] = [before.frequencyHz, after.frequencyHz];
  return [{ kind: "frequency", fromHz, toHz, octaves: octavesBetween(fromHz, toHz) }];
}

function wayOf(scene: Scene, { output }: MovedHalf): Way | undefined {
  const { feeds } = output;
  if (feeds.kind !== "loudspeaker") return undefined;
  const loudspeaker = scene.after.loudspeakers.find(({ id }) => id === feeds.loudspeakerId);
  return loudspeaker?.ways.find(({ id }) => id === feeds.wayId);
}

function loudspeakerName(scene: Scene, { loudspeakerId, output }: MovedHalf): string {
  return scene.after.loudspeakers.find(({ id }) => id === loudspeakerId)?.label ?? output.label;
}
