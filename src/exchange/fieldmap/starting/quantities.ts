/** Units as they stand behind numbers or in names, with the units of fields that they can be. */
const QUANTITIES: readonly (readonly [written: RegExp, units: readonly string[]])[] = [
  [/^dbfs$/i, ["dBFS", "dB"]],
  [/^dbu?$/i, ["dB", "dBFS", "dB SPL"]],
  [/^db ?(?:spl|c)$/i, ["dB SPL"]],
  [/^db ?\/ ?(?:oct|octave)$/i, ["order"]],
  [/^k?hz$/i, ["Hz"]],
  [/^(?:ms|msec|us|µs|usec|s|sec|smp|sa|samples?|fr|frames?)$/i, ["ms"]],
  [/^(?:m|metres?|meters?|ft|feet|cm|mm)$/i, ["m", "ms"]],
  [/^(?:oct|octaves?)$/i, ["q"]],
  [/^(?:°c?|c|degc|°f|f|degf)$/i, ["°C"]],
  [/^(?:w|watts?)$/i, ["W"]],
  [/^(?:ohms?|ω)$/i, ["Ω"]],
];

/** Units of fields that a written unit can be; undefined for what is none. */
export function unitsFor(written: string): readonly string[] | undefined {
  const plain = written.trim();
  return plain === "" ? undefined : QUANTITIES.find(([pattern]) => pattern.test(plain))?.[1];
}

/** The unit that all numbers of a place bear; undefined where they bear none or several. */
export function writtenUnit(raws: readonly string[]): string | undefined {
  const units = new Set(raws.map((raw) => /^[+-]?[\d.,]+\s*([^\d\s.,].*)$/.exec(raw.trim())?.[1]?.trim()));
  const [only] = units;
  return units.size === 1 ? only : undefined;
}

/** The last word of a name where it is a unit, behind a space, a sign or in brackets: "Gain (dB)", "fs_khz", "gainDb". */
export function unitInName(name: string): string | undefined {
  const last = name.slice(name.lastIndexOf("/") + 1);
  const found =
    /[ _.([-]([A-Za-zµ°Ω]+(?:~1oct\w*)?)[\])]?$/.exec(last)?.[1] ?? /[a-z]([A-Z][a-z]{1,2})$/.exec(last)?.[1];
  const word = found?.replace("~1", "/");
  // One letter says nothing by itself: "pos_c" is no temperature.
  return word !== undefined && (word.length > 1 || /[m]/.test(word)) && unitsFor(word) !== undefined
    ? word
    : undefined;
}

/** Whether a field can hold numbers of a written unit: 1 it can, -1 it cannot, 0 nothing is known. */
export function unitFit(
  path: string,
  fieldUnit: string | undefined,
  written: string | undefined,
): -1 | 0 | 1 {
  const units = written === undefined ? undefined : unitsFor(written);
  if (units === undefined) return 0;
  const own = /(?:^|\.)q$/.test(path) ? "q" : /[oO]rder$/.test(path) ? "order" : fieldUnit;
  return own !== undefined && units.includes(own) ? 1 : -1;
}
