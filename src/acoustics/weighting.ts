/** A frequency weighting of IEC 61672-1; Z is flat. */
export type Weighting = "A" | "C" | "Z";

// Pole frequencies in Hz from f_R = 1 kHz, f_L = 10^1.5 Hz, f_H = 10^3.9 Hz, f_A = 10^2.45 Hz and D² = 1/2.
// Source: IEC 61672-1:2013, annex E.
const LOW_HZ = 10 ** 1.5;
const HIGH_HZ = 10 ** 3.9;
const [F1, F4] = cOuterPoles();
const F_A = 10 ** 2.45;
const F2 = ((3 - Math.sqrt(5)) / 2) * F_A;
const F3 = ((3 + Math.sqrt(5)) / 2) * F_A;

/**
 * A, C or Z weighting in dB, exactly 0 dB at 1 kHz. Source: IEC 61672-1:2013, annex E, with the exact poles
 * (20.599, 107.65, 737.86, 12194.2 Hz).
 */
export function weightingDb(weighting: Weighting, frequencyHz: number): number {
  return 10 * Math.log10(weightingPower(weighting, frequencyHz));
}

/** The weighting as a power ratio: 10^(dB/10) of {@link weightingDb}. */
export function weightingPower(weighting: Weighting, frequencyHz: number): number {
  const power = UNSCALED[weighting];
  return power(frequencyHz * frequencyHz) / power(1000 ** 2);
}

/** |weighting|² as a function of f², without the scale that makes it 1 at 1 kHz. */
const UNSCALED: Readonly<Record<Weighting, (f2: number) => number>> = {
  A: (f2) => (cPower(f2) * f2 ** 2) / ((f2 + F2 ** 2) * (f2 + F3 ** 2)),
  C: cPower,
  Z: () => 1,
};

function cPower(f2: number): number {
  return (f2 / ((f2 + F1 ** 2) * (f2 + F4 ** 2))) ** 2;
}

/** The double poles of C: f² = (−b ∓ √(b² − 4c))/2. */
function cOuterPoles(): readonly [number, number] {
  const r2 = 1000 ** 2;
  const b =
    (r2 + (LOW_HZ ** 2 * HIGH_HZ ** 2) / r2 - Math.SQRT1_2 * (LOW_HZ ** 2 + HIGH_HZ ** 2)) /
    (1 - Math.SQRT1_2);
  const c = LOW_HZ ** 2 * HIGH_HZ ** 2;
  const root = Math.sqrt(b * b - 4 * c);
  const high2 = (-b + root) / 2;
  return [Math.sqrt(c / high2), Math.sqrt(high2)];
}
