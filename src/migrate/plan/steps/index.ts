import type { Step } from "../step.ts";
import { automation } from "./automation.ts";
import { calibration } from "./calibration.ts";
import { channels } from "./channels.ts";
import { delays } from "./delays.ts";
import { driverFilters } from "./driver-filters.ts";
import { equalizations } from "./equalizations.ts";
import { labels } from "./labels.ts";
import { levels } from "./levels.ts";
import { network } from "./network.ts";
import { notes } from "./notes.ts";
import { operation } from "./operation.ts";
import { outputs } from "./outputs.ts";
import { presets } from "./presets.ts";
import { protection } from "./protection.ts";
import { remainder } from "./remainder.ts";
import { sources } from "./sources.ts";
import { unit } from "./unit.ts";

/**
 * The steps in their order. What is left out as a whole comes first; levels and delays come when it is clear what plays;
 * the last step asks about whatever no other one answered for.
 */
export const STEPS: readonly Step[] = [
  unit,
  channels,
  sources,
  outputs,
  presets,
  equalizations,
  driverFilters,
  levels,
  delays,
  protection,
  operation,
  network,
  automation,
  labels,
  calibration,
  notes,
  remainder,
];
