/** How a report is drawn as text. */
export interface TextOptions {
  /** No line is wider than this many columns. @defaultValue 80 */
  readonly columns?: number;
  /** Whether terminal styles (ECMA-48) may be used; everything is said without them too. @defaultValue false */
  readonly color?: boolean;
}
