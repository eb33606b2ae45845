import { FIELDS, fieldAt } from "../../../model/index.ts";
import { fieldType } from "../field-type.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { meaningsOf } from "./known-words.ts";
import { unitFit, writtenUnit } from "./quantities.ts";

/** Forms of texts that fields have whatever the unit. */
const FORMS: readonly (readonly [path: RegExp, form: RegExp])[] = [
  [/^unit\.(?:firmware|profileRevision)$/, /^\d+\.\d[\w.-]*$/],
  [/^calibration\.date$/, /^\d{4}-\d{2}-\d{2}/],
  [/\.(?:address|gateway)$/, /^\d{1,3}(?:\.\d{1,3}){3}$/],
  [/^unit\.serial$/, /\d/],
  [/^unit\.sampleRateHz$/, /^(?:44\.?1|48|88\.?2|96|176\.?4|192)(?:0{2,3})?(?:\s*k?(?:Hz)?)?$/],
];

const NUMBER = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)\s*[A-Za-z%°Ωµ]{0,5}$/;

/** Texts that stand for no value. */
export const NOTHING: ReadonlySet<string> = new Set(["", "-", "--", "none", "null", "n/a", "nil", "unset"]);

/** Words for one of several things, where they say that there is none of them. */
export const NO_WORDS: ReadonlySet<string> = new Set(
  "off out aus flat bypass byp thru through no nothing".split(" "),
);

/** The values among texts of an export: without those that stand for none. */
export function realValues(raws: readonly string[]): readonly string[] {
  return raws.filter((raw) => !NOTHING.has(raw.trim().toLowerCase()));
}

/** Two words for a switch, the one for "on" first. */
export const SWITCH_WORDS: readonly (readonly [on: string, off: string])[] = [
  ["true", "false"],
  ["1", "0"],
  ["on", "off"],
  ["yes", "no"],
  ["y", "n"],
  ["ja", "no"],
  ["in", "out"],
  ["enabled", "disabled"],
  ["active", "bypassed"],
  ["muted", "open"],
  ["muted", "live"],
  ["muted", "unmuted"],
  ["mute", "live"],
  ["mute", "unmute"],
  ["mute", "open"],
  ["ein", "aus"],
];

export function isSwitch(raws: readonly string[]): boolean {
  const words = new Set(raws.map((raw) => raw.trim().toLowerCase()));
  return words.size > 0 && SWITCH_WORDS.some((pair) => [...words].every((word) => pair.includes(word)));
}

/** Whether values can be those of a field: -1 never, 0 perhaps, 1 very likely. */
export function valueFit(path: string, raws: readonly string[]): number {
  // A minus is a polarity, and nothing elsewhere.
  const real = /polarity$/.test(path) ? raws : realValues(raws);
  if (real.length === 0) return -0.2;
  const words = FIELD_WORDS[path];
  if (words !== undefined) {
    const spoken = real.filter((raw) => !NO_WORDS.has(raw.trim().toLowerCase()));
    if (spoken.length > 0 && spoken.length < real.length && meaningsOf(path, spoken) !== undefined)
      return 0.6;
    const known = real.filter((raw) => words.includes(raw.trim())).length / real.length;
    if (known === 1) return 1;
    if (meaningsOf(path, real) !== undefined) return 0.6;
    const distinct = new Set(real).size;
    return distinct <= words.length && distinct <= 2 && /polarity$/.test(path) ? 0.1 : -1;
  }
  const form = FORMS.find(([pattern]) => pattern.test(path))?.[1];
  if (form !== undefined) return real.every((raw) => form.test(raw.trim())) ? 0.5 : -1;
  switch (fieldType(path)) {
    case "number": {
      if (!real.every((raw) => NUMBER.test(raw.trim()))) return -1;
      const unit = unitFit(path, fieldAt(path)?.unit, writtenUnit(real));
      return unit === -1 ? -1 : 0.2 + unit * 0.3;
    }
    case "boolean":
      return isSwitch(real) || new Set(real).size === 1 ? 0.3 : -1;
    default:
      return real.every((raw) => NUMBER.test(raw.trim())) ? -0.1 : 0.1;
  }
}

/** Numbers of fields: every field that has a plain list of numbers. */
export const NUMBER_LISTS = FIELDS.filter(({ path }) => path.endsWith("[]")).map(({ path }) => path);
