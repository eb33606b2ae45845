import type { Configuration, Proof, UnitProfile } from "../../../model/index.ts";
import { printDb, printMs } from "../../../words/index.ts";
import { equalizerCurves } from "../equalizer-curves.ts";
import type { Plan } from "../plan.ts";
import { unfoundedAccounts } from "./unfounded-accounts.ts";
import { wiringClaims } from "./wiring-claims.ts";

/** Where errors of equalizers are stated. */
const FROM_HZ = 40;
const TO_HZ = 16_000;
const POINTS_PER_OCTAVE = 48;
/** The curves are computed at other frequencies than the fits were judged at: so far figures may be apart. */
const SAME_SHARE = 0.1;
const SAME_RMS_DB = 0.02;
const SAME_MAX_DB = 0.1;
const SAME_DELAY_MS = 0.02;

/** Kinds that are carried on their own; an equalizer with one of them moves by more than its fit says. */
const OF_THEIR_OWN: ReadonlySet<string> = new Set([
  "high-pass",
  "low-pass",
  "band-pass",
  "notch",
  "all-pass",
]);

/**
 * What a plan says of itself and the two documents do not bear out, in words: its accounts, errors of equalizers against
 * their computed curves, the largest delay and the re-patch sheet against the proof. Empty: all of it holds.
 */
export function unfoundedClaims(
  plan: Plan,
  old: Configuration,
  { from, to, proof }: { readonly from: UnitProfile; readonly to: UnitProfile; readonly proof: Proof },
): readonly string[] {
  return [
    ...unfoundedAccounts(plan, old),
    ...equalizerClaims(plan, old, { from, to }),
    ...delayClaims(plan, proof),
    ...wiringClaims(plan, proof),
  ];
}

function equalizerClaims(
  plan: Plan,
  old: Configuration,
  units: { readonly from: UnitProfile; readonly to: UnitProfile },
): readonly string[] {
  const claims = new Map(plan.equalizers.map((claim) => [claim.address, claim]));
  const special = specialAddresses(old);
  const curves = equalizerCurves(plan, old, { ...units, pointsPerOctave: POINTS_PER_OCTAVE });
  return curves.flatMap(({ address, title, frequenciesHz, beforeDb, afterDb }) => {
    if (special.has(address)) return [];
    const errors = frequenciesHz.flatMap((frequencyHz, k) =>
      frequencyHz < FROM_HZ || frequencyHz > TO_HZ ? [] : [afterDb[k]! - beforeDb[k]!],
    );
    const rmsDb = Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);
    const maxDb = Math.max(...errors.map(Math.abs));
    const claim = claims.get(address)!;
    const holds =
      rmsDb <= claim.rmsDb * (1 + SAME_SHARE) + SAME_RMS_DB &&
      maxDb <= Math.abs(claim.maxDb) * (1 + SAME_SHARE) + SAME_MAX_DB;
    if (holds) return [];
    return [
      `${title}: the plan says rms ${printDb(claim.rmsDb, 2)} and ${printDb(Math.abs(claim.maxDb), 2)} at most, the curves say ${printDb(rmsDb, 2)} and ${printDb(maxDb, 2)}.`,
    ];
  });
}

/** Equalizers with a filter of its own kind. */
function specialAddresses({ equalizations, outputs }: Configuration): ReadonlySet<string> {
  const isSpecial = ({ kind }: { readonly kind: string }) => OF_THEIR_OWN.has(kind);
  return new Set([
    ...equalizations.flatMap(({ id, channels }) =>
      channels
        .filter(({ parametric }) => parametric?.some(isSpecial) === true)
        .map(({ channelId }) => `equalizations/${id}/channels/${channelId}`),
    ),
    ...outputs.filter(({ filters }) => filters.some(isSpecial)).map(({ id }) => `outputs/${id}`),
  ]);
}

function delayClaims({ delays }: Plan, { commonDelayMs }: Proof): readonly string[] {
  if (Math.abs(commonDelayMs) <= delays.largest + SAME_DELAY_MS) return [];
  return [
    `The plan says that no path is off by more than ${printMs(delays.largest, 3)}, the proof finds ${printMs(commonDelayMs, 3)} on every path.`,
  ];
}
