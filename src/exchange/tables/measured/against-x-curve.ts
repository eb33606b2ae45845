import { type XCurveDeviation, xCurveDeviations } from "../../../acoustics/index.ts";
import { CHANNELS, type Configuration } from "../../../model/index.ts";

/** A measured channel beside the X-curve. */
export interface ChannelAgainstXCurve {
  readonly channelId: string;
  readonly bands: readonly XCurveDeviation[];
}

/** The measured screen and surround channels of a configuration beside the X-curve, in the order of the calibration. */
export function measuredAgainstXCurve({
  calibration,
  channels,
}: Configuration): readonly ChannelAgainstXCurve[] {
  return (calibration?.channels ?? []).flatMap(({ channelId, thirdOctavesDb }) => {
    const label = channels.find(({ id }) => id === channelId)?.label;
    const role = label && CHANNELS[label].role;
    if (thirdOctavesDb === undefined || (role !== "screen" && role !== "surround")) return [];
    return [{ channelId, bands: xCurveDeviations(thirdOctavesDb) }];
  });
}
