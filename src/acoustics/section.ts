/**
 * One second-order section of a digital filter. With θ = πf/fs:
 *
 *     H(f) = (b0·cos²θ + j·b1·cosθ·sinθ − b2·sin²θ) / (a0·cos²θ + j·a1·cosθ·sinθ − a2·sin²θ)
 *
 * which is the bilinear transform, s = (z − 1)/(z + 1), of (b0 + b1·s + b2·s²)/(a0 + a1·s + a2·s²). This form keeps full
 * accuracy where the usual coefficients in z⁻¹ lose it: at low frequencies and high sample rates.
 */
export interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a0: number;
  readonly a1: number;
  readonly a2: number;
}

/** An analogue prototype with its corner or center at 1 rad/s: (b0 + b1·s + b2·s²)/(a0 + a1·s + a2·s²). */
export interface Prototype {
  /** [b0, b1, b2] */
  readonly numerator: readonly [number, number, number];
  /** [a0, a1, a2] */
  readonly denominator: readonly [number, number, number];
}

/**
 * The digital section of a prototype, its corner moved exactly to `frequencyHz` (bilinear transform, pre-warped:
 * s ← s / tan(πf₀/fs)).
 */
export function prewarpedSection(prototype: Prototype, frequencyHz: number, sampleRateHz: number): Section {
  const k = Math.tan((Math.PI * frequencyHz) / sampleRateHz);
  // Scaled so that no coefficient grows with the corner: a long cascade can be multiplied out before it is divided.
  const scale = 1 / (1 + k * k);
  const [b0, b1, b2] = prototype.numerator;
  const [a0, a1, a2] = prototype.denominator;
  return {
    b0: b0 * k * k * scale,
    b1: b1 * k * scale,
    b2: b2 * scale,
    a0: a0 * k * k * scale,
    a1: a1 * k * scale,
    a2: a2 * scale,
  };
}

/** Coefficients in z⁻¹, as a processor runs them: H(z) = (b₀ + b₁z⁻¹ + b₂z⁻²)/(1 + a₁z⁻¹ + a₂z⁻²). */
export interface DigitalCoefficients {
  readonly b: readonly [number, number, number];
  readonly a: readonly [1, number, number];
}

/** A section's coefficients in z⁻¹, divided by a₀ (a₀ = 1). */
export function digitalCoefficients(section: Section): DigitalCoefficients {
  const { b0, b1, b2, a0, a1, a2 } = section;
  const scale = 1 / (a0 + a1 + a2);
  return {
    b: [(b0 + b1 + b2) * scale, 2 * (b0 - b2) * scale, (b0 - b1 + b2) * scale],
    a: [1, 2 * (a0 - a2) * scale, (a0 - a1 + a2) * scale],
  };
}
