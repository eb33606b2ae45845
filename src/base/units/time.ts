/** Milliseconds as samples, not rounded: ms · rate / 1000. */
export function samplesFromMs(delayMs: number, sampleRateHz: number): number {
  return (delayMs * sampleRateHz) / 1000;
}

/** Samples (also fractions) as milliseconds: 1000 · samples / rate. */
export function msFromSamples(samples: number, sampleRateHz: number): number {
  return (samples * 1000) / sampleRateHz;
}

/** Milliseconds as film or video frames, not rounded: ms · frames a second / 1000. */
export function framesFromMs(delayMs: number, framesPerSecond: number): number {
  return (delayMs * framesPerSecond) / 1000;
}

/** Film or video frames as milliseconds: 1000 · frames / frames a second. */
export function msFromFrames(frames: number, framesPerSecond: number): number {
  return (frames * 1000) / framesPerSecond;
}
