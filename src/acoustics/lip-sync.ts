/**
 * How far sound may be from picture, in ms, both positive. Source: Recommendation ITU-R BT.1359-1 (1998), for
 * broadcasting; no cinema standard with another window is known.
 */
export const LIP_SYNC_WINDOWS = {
  /** Most viewers notice beyond this. */
  detectability: { soundAheadMs: 45, soundBehindMs: 125 },
  /** Most viewers object beyond this. */
  acceptability: { soundAheadMs: 90, soundBehindMs: 185 },
} as const;

export type LipSyncWindow = keyof typeof LIP_SYNC_WINDOWS;

/**
 * Whether sound is in time with the picture; the window's ends belong to it.
 *
 * @param soundLateMs sound after picture in ms; negative: sound first.
 */
export function isInLipSync(soundLateMs: number, window: LipSyncWindow): boolean {
  const { soundAheadMs, soundBehindMs } = LIP_SYNC_WINDOWS[window];
  return soundLateMs >= -soundAheadMs && soundLateMs <= soundBehindMs;
}
