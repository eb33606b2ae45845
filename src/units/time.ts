/** Milliseconds as samples, not rounded. */
export function samplesFromMs(delayMs: number, sampleRateHz: number): number {
  return (delayMs * sampleRateHz) / 1000;
}

/** Samples (also fractions) as milliseconds. */
export function msFromSamples(samples: number, sampleRateHz: number): number {
  return (samples * 1000) / sampleRateHz;
}

/** Milliseconds as film or video frames, not rounded. */
export function framesFromMs(delayMs: number, framesPerSecond: number): number {
  return (delayMs * framesPerSecond) / 1000;
}

/** Film or video frames as milliseconds. */
export function msFromFrames(frames: number, framesPerSecond: number): number {
  return (frames * 1000) / framesPerSecond;
}
