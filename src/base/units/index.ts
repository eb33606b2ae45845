export { phaseLagDeg, wrapDeg, wrapRad } from "./angle.ts";
export {
  feetFromMetres,
  metresFromFeet,
  metresFromMs,
  msFromMetres,
  ROOM_TEMPERATURE_C,
  speedOfSoundMps,
} from "./distance.ts";
export { octavesAbove, octavesBetween } from "./frequency.ts";
export {
  amplitudeFromDb,
  coherentSumDb,
  dbFromAmplitude,
  dbFromPower,
  incoherentSumDb,
  powerFromDb,
} from "./level.ts";
export { liesOnStep, nearestOnStep, type StepRange } from "./step.ts";
export { framesFromMs, msFromFrames, msFromSamples, samplesFromMs } from "./time.ts";
