/** Temperature assumed where none is known, in °C. */
export const ROOM_TEMPERATURE_C = 20;

/** The international foot in metres (exact). */
const METRES_PER_FOOT = 0.3048;

/**
 * Speed of sound in air in m/s: 343.2 · √(T / 293.15 K), T in kelvin. Humidity is left out (0.1 to 0.6 % upwards).
 * Source: ISO 9613-1.
 *
 * @param temperatureC air temperature in °C, above −273.15.
 * @defaultValue 20 °C, which gives 343.2 m/s
 */
export function speedOfSoundMps(temperatureC: number = ROOM_TEMPERATURE_C): number {
  return 343.2 * Math.sqrt((temperatureC + 273.15) / 293.15);
}

/** Distance in metres that sound travels in a time: c · ms / 1000, c from {@link speedOfSoundMps} (20 °C by default). */
export function metresFromMs(delayMs: number, temperatureC?: number): number {
  return (delayMs / 1000) * speedOfSoundMps(temperatureC);
}

/** Time in milliseconds that sound takes over a distance: 1000 · m / c, c from {@link speedOfSoundMps} (20 °C by default). */
export function msFromMetres(distanceM: number, temperatureC?: number): number {
  return (distanceM / speedOfSoundMps(temperatureC)) * 1000;
}

/** Metres as international feet (0.3048 m exactly). */
export function feetFromMetres(distanceM: number): number {
  return distanceM / METRES_PER_FOOT;
}

/** International feet (0.3048 m exactly) as metres. */
export function metresFromFeet(distanceFt: number): number {
  return distanceFt * METRES_PER_FOOT;
}
