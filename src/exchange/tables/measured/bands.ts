import { nominalThirdOctaveHz, thirdOctaveBands } from "../../../acoustics/index.ts";
import { numberOfText } from "../../../base/text/index.ts";

/** Rounding of printed exact frequencies, as a share. */
const ROUNDING = 0.001;

/**
 * The third octave that a frequency names: its nominal frequency (ISO 266, "31.5", "1250"), or its exact one (IEC 61260-1,
 * base ten: 1258.9; base two: 1259.9) as far as it was printed. undefined: none from 20 Hz to 20 kHz.
 */
export function bandOfHz(frequencyHz: number): number | undefined {
  return thirdOctaveBands().find(
    ({ index, centerHz }) =>
      frequencyHz === nominalThirdOctaveHz(index) ||
      isNear(frequencyHz, centerHz) ||
      isNear(frequencyHz, 1000 * 2 ** (index / 3)),
  )?.index;
}

function isNear(frequencyHz: number, exactHz: number): boolean {
  return Math.abs(frequencyHz / exactHz - 1) <= ROUNDING;
}

/** The frequency of a text: "1250", "1.25k", "1.25 kHz", "31.5 Hz". */
export function hzOfText(text: string, decimal: "." | ","): number | undefined {
  const number = text.trim().replace(/hz$/i, "").trimEnd();
  const isKilo = /k$/i.test(number);
  const value = numberOfText(isKilo ? number.slice(0, -1) : number, { decimal });
  return value === undefined ? undefined : Number((isKilo ? value * 1000 : value).toPrecision(12));
}

/** The bands below and above a frequency that is none, by their nominal frequencies. */
export function nearBands(frequencyHz: number): readonly number[] {
  const bands = thirdOctaveBands();
  const above = bands.findIndex(({ centerHz }) => centerHz > frequencyHz);
  const near = above < 0 ? [bands.length - 1] : above === 0 ? [0] : [above - 1, above];
  return near.map((position) => nominalThirdOctaveHz(bands[position]!.index));
}
