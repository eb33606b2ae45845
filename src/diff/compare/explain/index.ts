import type { Explainer } from "../explainer.ts";
import { explainAutomation } from "./automation.ts";
import { explainCalibration } from "./calibration.ts";
import { explainCrossover } from "./crossover.ts";
import { explainDelay } from "./delay.ts";
import { explainDriverEq } from "./driver-eq.ts";
import { explainEmergencyMute } from "./emergency-mute.ts";
import { explainEqualizer } from "./equalizer.ts";
import { explainLevel } from "./level.ts";
import { explainLimiter } from "./limiter.ts";
import { explainLoudspeakerData } from "./loudspeaker-data.ts";
import { explainMute } from "./mute.ts";
import { explainNetwork } from "./network.ts";
import { explainOperation } from "./operation.ts";
import { explainOutputFeed } from "./output-feed.ts";
import { explainOutputMove } from "./output-move.ts";
import { explainPolarity } from "./polarity.ts";
import { explainPreset } from "./preset.ts";
import { explainRecord } from "./record.ts";
import { explainRename } from "./rename.ts";
import { explainRest } from "./rest.ts";
import { explainRouting } from "./routing.ts";
import { explainSource } from "./source.ts";
import { explainUnit } from "./unit.ts";

/**
 * Who explains what, in order: each takes what it understands of what those before it left. The last one takes all
 * the rest.
 */
export const EXPLAINERS: readonly Explainer[] = [
  explainUnit,
  explainRename,
  explainOutputMove,
  explainEmergencyMute,
  explainCrossover,
  explainLimiter,
  explainMute,
  explainPolarity,
  explainEqualizer,
  explainDriverEq,
  explainLevel,
  explainDelay,
  explainRouting,
  explainOutputFeed,
  explainPreset,
  explainSource,
  explainAutomation,
  explainOperation,
  explainNetwork,
  explainCalibration,
  explainLoudspeakerData,
  explainRecord,
  explainRest,
];
