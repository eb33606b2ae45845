import { metresFromMs } from "../../../base/units/index.ts";
import type { LoudspeakerModel, UnitProfile } from "../../../model/index.ts";
import { delayGridMs, gridRange } from "../../../profile/index.ts";

/** A loudspeaker whose distance is asked for, with what else decides over its delay and its level. */
export interface ToPlace {
  readonly id: string;
  readonly model: LoudspeakerModel;
  /** Level wanted at the seat less what boxes and arrays of the same channel add, in dB. */
  readonly wantedDb: number;
  /** Channel whose delay it shares, for surrounds. */
  readonly shares?: string;
}

export interface Placed extends ToPlace {
  readonly distanceM: number;
}

/** What the schema allows, in metres. */
const NEAREST_M = 0.3;
const FARTHEST_M = 100;
/** Distances are asked for to the centimetre; limits are kept inside by one. */
const STEP_M = 0.01;

/**
 * The distances at which one more loudspeaker can stand so that the unit still reaches every delay and every gain.
 *
 * Two loudspeakers that start together may differ by as much as an output's delay can hold, an array from the farthest
 * screen loudspeaker by what the channel's delay holds less the surrounds' lateness; and the gains of any two ways by
 * what an output's gain can be lowered.
 */
export function reachableM(
  next: ToPlace,
  placed: readonly Placed[],
  {
    profile,
    sampleRateHz,
    temperatureC,
    afterMs,
  }: {
    readonly profile: UnitProfile;
    readonly sampleRateHz: number;
    readonly temperatureC: number;
    readonly afterMs: number;
  },
): { readonly min: number; readonly max: number } {
  const metres = (ms: number) => metresFromMs(ms, temperatureC);
  const alignMs = ({ model }: ToPlace) => Math.max(...model.ways.map((way) => way.alignMs ?? 0));
  const outputMs = gridRange(delayGridMs(profile.outputs.delay, sampleRateHz)).max;
  const channelMs = gridRange(delayGridMs(profile.channels.delay, sampleRateHz)).max;
  const room = -gridRange(profile.outputs.gainDb).min;
  let [min, max] = [NEAREST_M, FARTHEST_M];
  for (const other of placed) {
    const reachM = metres(outputMs - Math.max(alignMs(next), alignMs(other)));
    if (other.shares === next.shares) {
      min = Math.max(min, other.distanceM - reachM);
      max = Math.min(max, other.distanceM + reachM);
    } else if (other.shares === undefined) {
      min = Math.max(min, other.distanceM - metres(channelMs - afterMs));
    }
    const otherDb = neededDb(other).map((db) => db + 20 * Math.log10(other.distanceM));
    const atLeast = Math.max(...otherDb) - room - Math.min(...neededDb(next));
    const atMost = Math.min(...otherDb) + room - Math.max(...neededDb(next));
    min = Math.max(min, 10 ** (atLeast / 20));
    max = Math.min(max, 10 ** (atMost / 20));
  }
  return { min: Math.ceil(min / STEP_M) / 100, max: Math.floor(max / STEP_M) / 100 };
}

/** Gain that each way needs at one metre, in dB. */
function neededDb({ model, wantedDb }: ToPlace): readonly number[] {
  return model.ways.map(({ sensitivityDb }) => wantedDb - sensitivityDb);
}
