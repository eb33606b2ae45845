import type { Configuration, Loudspeaker, Output, Placement, UnitProfile } from "../../../model/index.ts";
import { equalJoins, sideJoins } from "./joins.ts";
import { outputDifferences } from "./output-difference.ts";
import { LOSS, MIRROR, type ReductionBundle } from "./reduction.ts";

/**
 * Every bundle of reductions that a configuration allows for outputs of one kind, least missed first.
 *
 * @param profile unit that the configuration's filters are computed for
 */
export function reductionsOf(
  configuration: Configuration,
  outputs: readonly Output[],
  profile: UnitProfile,
): readonly ReductionBundle[] {
  const speakers = new Map(configuration.loudspeakers.map((item) => [item.id, item]));
  const single = outputs.flatMap((output) => {
    const speaker =
      output.feeds.kind === "loudspeaker" ? speakers.get(output.feeds.loudspeakerId) : undefined;
    return speaker !== undefined && speaker.ways.length === 1 ? [{ output, speaker }] : [];
  });
  const compare = outputDifferences(configuration, profile);
  return [
    ...equalJoins(single, compare),
    ...sideJoins(configuration, single, compare),
    ...feedsLeftOut(outputs),
    ...speakersLeftOut(configuration, outputs),
  ].sort((a, b) => a.loss - b.loss);
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
        weakensProtection: false,
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
        weakensProtection: false,
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
