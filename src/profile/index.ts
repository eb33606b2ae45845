export {
  CONNECTORS_OF_SOURCE,
  type CrossoverObstacle,
  connectorsById,
  crossoverObstacle,
  type FilterObstacle,
  filterObstacle,
  holdsForFirmware,
} from "./abilities.ts";
export { DELAY_TOLERANCE_MS, delayGridMs } from "./delay.ts";
export { faderGrid, faderLevelDb, faderMarkAt } from "./fader.ts";
export { labelCharactersInWords } from "./label-characters.ts";
export { type LabelLimits, labelFits, labelLimits } from "./label-limits.ts";
export { type LimitedNumber, limitedNumbers } from "./limited-numbers.ts";
export {
  GRID_TOLERANCE,
  type GridNeighbours,
  gridContains,
  gridCount,
  gridIndex,
  gridNearest,
  gridNeighbours,
  gridRange,
  gridStep,
  gridValue,
} from "./number-grid.ts";
export { shortLabel } from "./short-label.ts";
export { GRAPHIC_BANDS, type KnownUnitAcoustics, unitAcoustics, unitLatencyMs } from "./unit-acoustics.ts";
