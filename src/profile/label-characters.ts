import { listedInFull } from "../words/index.ts";
import type { LabelLimits } from "./label-limits.ts";

const PRINTABLE = Array.from({ length: 95 }, (_, index) => String.fromCharCode(32 + index));
const LETTERS = PRINTABLE.filter((character) => /[a-z]/i.test(character));

/**
 * The characters that a name may hold, as a person says it: 'capital letters, digits, space and . / + -'. Tells what of
 * the printable ASCII characters, each by itself, the unit takes.
 */
export function labelCharactersInWords({ takes }: LabelLimits): string {
  const taken = PRINTABLE.filter(takes);
  if (taken.length === PRINTABLE.length) return "letters without accents, digits and usual signs";
  const parts: string[] = [];
  const rest = new Set(taken);
  const join = (words: string, characters: readonly string[]) => {
    if (!characters.every((character) => rest.has(character))) return;
    parts.push(words);
    for (const character of characters) rest.delete(character);
  };
  join("letters without accents", LETTERS);
  join(
    "capital letters",
    LETTERS.filter((letter) => letter < "a"),
  );
  join(
    "small letters",
    LETTERS.filter((letter) => letter >= "a"),
  );
  join("digits", [..."0123456789"]);
  join("space", [" "]);
  const signs = [...rest].join(" ");
  if (signs !== "") parts.push(signs);
  return listedInFull(parts);
}
