import { fieldAt } from "../../../model/index.ts";
import { fieldType } from "../field-type.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { realValues } from "./field-values.ts";

/** What values say of a place that has no name of its own, only a number in a row: 0 nothing, 1 that it is this field. */
export function evidenceOf(path: string, raws: readonly string[], fit: number, known: number): number {
  const real = realValues(raws);
  const distinct = new Set(real).size;
  if (distinct < 2) return 0;
  if (known === 1) return 0.8;
  if (FIELD_WORDS[path] !== undefined) return fit >= 0.6 ? 0.8 : 0;
  if (/(?:^|\.)label$/.test(path)) return areTitles(real) ? 0.7 : 0;
  if (fieldType(path) !== "number") return 0;
  const numbers = real.map((raw) => Number(raw.replace(",", ".")));
  if (numbers.some(Number.isNaN)) return 0;
  return numbersFit(path, numbers) ? 0.65 : 0;
}

/** Texts for people: some with a space or a capital inside, none twice. */
function areTitles(texts: readonly string[]): boolean {
  const isTitle = (text: string) => {
    const capital = text.search(/[A-Z]/);
    return (capital >= 0 && text.includes(" ", capital)) || /[a-z] [A-Z0-9]/.test(text);
  };
  return new Set(texts).size === texts.length && texts.filter(isTitle).length * 2 >= texts.length;
}

function numbersFit(path: string, numbers: readonly number[]): boolean {
  const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
  const unit = fieldAt(path)?.unit;
  // Filters and corners lie in the audible range, far from each other; levels go both ways or down.
  if (unit === "Hz") return least >= 15 && most <= 24_000 && most >= 4 * least;
  if (unit === "dB") return least < 0 && least >= -1000 && most <= 250;
  if (/(?:^|\.)q$/.test(path))
    return least >= 0 && most <= 20 && numbers.some((number) => !Number.isInteger(number));
  return false;
}
