import type { Configuration, Loudspeaker, Output, Placement } from "../../model/index.ts";

/** A way to need fewer outputs. Ways of one loudspeaker stay together: no way is ever dropped alone. */
export type Reduction =
  | { readonly kind: "join"; readonly into: Output; readonly from: Output }
  | { readonly kind: "leave-out"; readonly outputs: readonly Output[] };

/** Reductions that only make sense together: both sides of the room, or one thing. */
export interface ReductionBundle {
  readonly id: string;
  readonly words: string;
  readonly consequence: string;
  /** How many outputs it sets free. */
  readonly frees: number;
  /** The smaller, the less is missed: an order of preference, not a physical quantity. Common practice, no source. */
  readonly loss: number;
  readonly reductions: readonly Reduction[];
}

const MIRROR: Readonly<Partial<Record<Placement, Placement>>> = {
  "surround-left": "surround-right",
  "surround-left-side": "surround-right-side",
  "surround-left-rear": "surround-right-rear",
  "screen-left-center": "screen-right-center",
  "screen-left": "screen-right",
};

/** Arrays on one side of the room that one output can feed together. */
const JOINABLE: readonly (readonly [Placement, Placement])[] = [
  ["surround-left-side", "surround-left-rear"],
  ["surround-right-side", "surround-right-rear"],
];

const LOSS = {
  joinEqual: 1,
  joinSides: 10,
  boothMonitor: 20,
  narration: 60,
  hearingImpaired: 70,
  surround: 100,
  subwoofer: 150,
  screen: 1000,
} as const;

/** Every bundle of reductions that a configuration allows for outputs of one kind, least missed first. */
export function reductionsOf(
  configuration: Configuration,
  outputs: readonly Output[],
): readonly ReductionBundle[] {
  const speakers = new Map(configuration.loudspeakers.map((item) => [item.id, item]));
  const single = outputs.flatMap((output) => {
    const speaker =
      output.feeds.kind === "loudspeaker" ? speakers.get(output.feeds.loudspeakerId) : undefined;
    return speaker !== undefined && speaker.ways.length === 1 ? [{ output, speaker }] : [];
  });
  return [
    ...equalJoins(single),
    ...sideJoins(single),
    ...feedsLeftOut(outputs),
    ...speakersLeftOut(configuration, outputs),
  ].sort((a, b) => a.loss - b.loss);
}

interface Single {
  readonly output: Output;
  readonly speaker: Loudspeaker;
}

/** Two loudspeakers at the same place that play the same channels: one output can feed both. */
function equalJoins(single: readonly Single[]): readonly ReductionBundle[] {
  return single.flatMap((first, index) =>
    single
      .slice(index + 1)
      .filter(
        (second) =>
          first.speaker.placement === second.speaker.placement && sameMix(first.output, second.output),
      )
      .map((second) => ({
        id: `join-${second.output.id}-to-${first.output.id}`,
        words: `'${second.speaker.label}' is fed by the output of '${first.speaker.label}'.`,
        consequence: `Both play the same channels as before. ${settingsLost(first.output, second.output)}`,
        frees: 1,
        loss: LOSS.joinEqual,
        reductions: [{ kind: "join" as const, into: first.output, from: second.output }],
      })),
  );
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
function sideJoins(single: readonly Single[]): readonly ReductionBundle[] {
  const at = (placement: Placement) => single.filter(({ speaker }) => speaker.placement === placement);
  const joins = JOINABLE.flatMap(([side, rear]) => {
    const [sides, rears] = [at(side), at(rear)];
    return sides.length === 1 && rears.length === 1 ? [{ side: sides[0]!, rear: rears[0]! }] : [];
  });
  if (joins.length === 0) return [];
  return [
    {
      id: `join-${joins.map(({ rear }) => rear.output.id).join("-and-")}-to-side`,
      words: joins
        .map(({ side, rear }) => `'${rear.speaker.label}' is fed by the output of '${side.speaker.label}'.`)
        .join(" "),
      consequence: `Side and rear surround channels are no longer apart: each plays from both arrays, 3 dB lower from each, so its level at the seats stays. ${joins
        .map(({ side, rear }) => settingsLost(side.output, rear.output))
        .join(" ")}`,
      frees: joins.length,
      loss: LOSS.joinSides,
      reductions: joins.map(({ side, rear }) => ({ kind: "join", into: side.output, from: rear.output })),
    },
  ];
}

function settingsLost(into: Output, from: Output): string {
  const delay = from.delayMs - into.delayMs;
  const gain = from.gainDb - into.gainDb;
  return `Output '${from.label}' differed by ${gain.toFixed(1)} dB and ${delay.toFixed(2)} ms; that difference is lost.`;
}

const FEEDS = {
  "booth-monitor": { words: "The booth monitor is left out.", loss: LOSS.boothMonitor },
  narration: { words: "The narration feed is left out.", loss: LOSS.narration },
  "hearing-impaired": { words: "The hearing-impaired feed is left out.", loss: LOSS.hearingImpaired },
} as const;

function feedsLeftOut(outputs: readonly Output[]): readonly ReductionBundle[] {
  return (Object.keys(FEEDS) as (keyof typeof FEEDS)[]).flatMap((kind) => {
    const fed = outputs.filter(({ feeds }) => feeds.kind === kind);
    if (fed.length === 0) return [];
    return [
      {
        id: `leave-out-${kind}`,
        words: FEEDS[kind].words,
        consequence:
          kind === "booth-monitor"
            ? "The booth has to listen in another way."
            : "Guests with headsets hear nothing; local codes may require the feed.",
        frees: fed.length,
        loss: FEEDS[kind].loss,
        reductions: [{ kind: "leave-out" as const, outputs: fed }],
      },
    ];
  });
}

/** A loudspeaker as a whole, with its counterpart on the other side of the room. */
function speakersLeftOut(
  configuration: Configuration,
  outputs: readonly Output[],
): readonly ReductionBundle[] {
  const outputsOf = (speaker: Loudspeaker) =>
    outputs.filter(({ feeds }) => feeds.kind === "loudspeaker" && feeds.loudspeakerId === speaker.id);
  const fed = configuration.loudspeakers.filter((speaker) => outputsOf(speaker).length > 0);
  const rights = new Set(Object.values(MIRROR));
  return fed
    .filter(({ placement }) => !rights.has(placement))
    .map((speaker) => {
      const mirrored = fed.filter(({ placement }) => placement === MIRROR[speaker.placement]);
      const together = mirrored.length === 1 ? [speaker, mirrored[0]!] : [speaker];
      const freed = together.flatMap(outputsOf);
      return {
        id: `leave-out-${together.map(({ id }) => id).join("-and-")}`,
        words: `${together.map(({ label }) => `'${label}'`).join(" and ")} ${together.length > 1 ? "stay" : "stays"} silent.`,
        consequence: "What the channel plays there is not heard at all.",
        frees: freed.length,
        loss: lossOf(speaker.placement) * together.length,
        reductions: [{ kind: "leave-out" as const, outputs: freed }],
      };
    });
}

function lossOf(placement: Placement): number {
  if (placement === "subwoofer") return LOSS.subwoofer;
  return placement.startsWith("surround") ? LOSS.surround : LOSS.screen;
}

/** How many options a question offers at most. */
const OPTIONS_MAX = 6;
/** How many of the least missed bundles are combined. */
const COMBINED_MAX = 10;

/** The sets of bundles that set free as many outputs as needed, least missed first; none holds more than it needs. */
export function reductionSets(
  bundles: readonly ReductionBundle[],
  needed: number,
): readonly (readonly ReductionBundle[])[] {
  const few = bundles.slice(0, COMBINED_MAX);
  const sets: { readonly bundles: readonly ReductionBundle[]; readonly loss: number }[] = [];
  for (let mask = 1; mask < 2 ** few.length; mask += 1) {
    const chosen = few.filter((_, index) => (mask >> index) & 1);
    const frees = chosen.reduce((sum, bundle) => sum + bundle.frees, 0);
    if (frees < needed || chosen.some((bundle) => frees - bundle.frees >= needed)) continue;
    if (overlap(chosen)) continue;
    sets.push({ bundles: chosen, loss: chosen.reduce((sum, bundle) => sum + bundle.loss, 0) });
  }
  return sets
    .sort((a, b) => a.loss - b.loss || a.bundles.length - b.bundles.length)
    .slice(0, OPTIONS_MAX)
    .map((set) => set.bundles);
}

/** Whether an output is gone or joined twice. */
function overlap(bundles: readonly ReductionBundle[]): boolean {
  const touched = bundles.flatMap(({ reductions }) =>
    reductions.flatMap((item) => (item.kind === "join" ? [item.from.id] : item.outputs.map(({ id }) => id))),
  );
  const needed = bundles.flatMap(({ reductions }) =>
    reductions.flatMap((item) => (item.kind === "join" ? [item.into.id] : [])),
  );
  return new Set(touched).size < touched.length || needed.some((id) => touched.includes(id));
}
