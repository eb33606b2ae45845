/** What a unit does to sound besides its configuration. */
export interface UnitAcoustics {
  /** Q of every band of its graphic equalizer. @defaultValue as wide as the layout's spacing (4.318 for a third octave) */
  readonly graphicQ?: number | undefined;
  /** Time from input to output in ms with all delays at 0. @defaultValue 0 */
  readonly latencyMs?: number | undefined;
}
