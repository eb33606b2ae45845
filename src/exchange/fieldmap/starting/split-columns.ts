import { FIELD_WORDS } from "../field-words.ts";
import { meaningsOf } from "./known-words.ts";

/** A word of a line, or a part of one. */
export interface Word {
  readonly text: string;
  readonly quoted: boolean;
  /** What stands between it and the one ahead of it. */
  readonly glue: string;
  /** What a part without a sign at its end is made of. */
  readonly style?: "letters" | "number";
}

export type Line = readonly Word[];

const SIGNS = [">", ":", "/", "."];

/** Lines of one form with words taken apart that hold two things in all of them: "film.L", "1>C", "#3", "LR24". */
export function splitColumns(lines: readonly Line[]): readonly Line[] {
  const [first] = lines;
  if (first === undefined) return lines;
  const columns = first.map((_word, i) =>
    splitColumn(
      lines.map((line) => line[i]!),
      i,
    ),
  );
  return lines.map((_line, row) => columns.flatMap((column) => column[row]!));
}

function splitColumn(words: readonly Word[], at: number): readonly (readonly Word[])[] {
  const whole = words.map((word) => [word]);
  if (at === 0 || words.some(({ quoted }) => quoted)) return whole;
  const texts = words.map(({ text }) => text);
  return (
    named(words, texts) ??
    bySign(words, texts) ??
    behindMark(words, texts) ??
    familyAndSlope(words, texts) ??
    whole
  );
}

/** A name with its value: "GAIN=-3". */
function named(words: readonly Word[], texts: readonly string[]): readonly (readonly Word[])[] | undefined {
  const [name] = /^[A-Za-z][\w-]*=/.exec(texts[0]!) ?? [];
  if (name === undefined || !texts.every((text) => text.startsWith(name) && text.length > name.length))
    return undefined;
  return words.map((word) => [
    { ...word, text: name.slice(0, -1) },
    { text: word.text.slice(name.length), quoted: false, glue: "=" },
  ]);
}

/** Two names, or a number and a name, with a sign between them; no numbers, versions, addresses or times. */
function bySign(words: readonly Word[], texts: readonly string[]): readonly (readonly Word[])[] | undefined {
  const part = "([A-Za-z][\\w-]*|\\d{1,4})";
  const sign = SIGNS.find((one) => {
    const form = new RegExp(`^${part}\\${one}${part}$`);
    return texts.every((text) => {
      const [, a, b] = form.exec(text) ?? [];
      return a !== undefined && b !== undefined && !(/^\d/.test(a) && /^\d/.test(b));
    });
  });
  if (sign === undefined) return undefined;
  return words.map((word) => {
    const at = word.text.indexOf(sign);
    return [
      { ...word, text: word.text.slice(0, at) },
      { text: word.text.slice(at + 1), quoted: false, glue: sign },
    ];
  });
}

/** A mark, or letters that are always the same, ahead of a number: "#3", "A20ms". */
function behindMark(
  words: readonly Word[],
  texts: readonly string[],
): readonly (readonly Word[])[] | undefined {
  const [mark] = /^(?:[#@]|[A-Za-z]{1,2}(?=[-+]?\d+(?:[.,]\d+)?[A-Za-z]+$))/.exec(texts[0]!) ?? [];
  if (
    mark === undefined ||
    !texts.every((text) => text.startsWith(mark) && /^[-+\d]/.test(text.slice(mark.length)))
  )
    return undefined;
  if (texts.length < 2 && mark !== "#") return undefined;
  return words.map((word) => [{ ...word, text: word.text.slice(mark.length), glue: word.glue + mark }]);
}

const FAMILY = Object.keys(FIELD_WORDS).find((path) => path.endsWith("highPass.family"))!;

/** The family of a filter with its slope or order: "BW12". */
function familyAndSlope(
  words: readonly Word[],
  texts: readonly string[],
): readonly (readonly Word[])[] | undefined {
  const found = texts.map((text) => /^([A-Za-z]{2,})-?(\d{1,2})$/.exec(text));
  if (found.some((match) => match === null) || texts.some((text) => text.includes("-"))) return undefined;
  if (
    meaningsOf(
      FAMILY,
      found.map((match) => match![1]!),
    ) === undefined
  )
    return undefined;
  return words.map((word, i) => [
    { ...word, text: found[i]![1]!, style: "letters" },
    { text: found[i]![2]!, quoted: false, glue: "", style: "number" },
  ]);
}
