/** Phase lag of a delay at one frequency in degrees, not wrapped: 360° · f · τ. */
export function phaseLagDeg(delayMs: number, frequencyHz: number): number {
  return (360 * frequencyHz * delayMs) / 1000;
}

/** An angle in degrees brought into [−180, 180). */
export function wrapDeg(angleDeg: number): number {
  return angleDeg - 360 * Math.floor((angleDeg + 180) / 360);
}

/** An angle in radians brought into [−π, π). */
export function wrapRad(angleRad: number): number {
  return angleRad - 2 * Math.PI * Math.floor((angleRad + Math.PI) / (2 * Math.PI));
}
