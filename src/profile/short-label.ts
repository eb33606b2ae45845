import { type LabelLimits, labelFits } from "./label-limits.ts";

/** Words that people in the trade write short; common practice, no source. Whole words only, whatever their case. */
const SHORT_WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    alternative: "alt",
    and: "+",
    amplifier: "amp",
    auditorium: "aud",
    booth: "bth",
    center: "C",
    centre: "C",
    channel: "ch",
    cinema: "cin",
    content: "cont",
    digital: "dig",
    feature: "feat",
    hearing: "hear",
    impaired: "imp",
    left: "L",
    level: "lev",
    microphone: "mic",
    monitor: "mon",
    music: "mus",
    narration: "narr",
    network: "net",
    preset: "pre",
    program: "prog",
    programme: "prog",
    rear: "rr",
    right: "R",
    screen: "scr",
    server: "srv",
    side: "sd",
    speech: "spch",
    stereo: "st",
    subwoofer: "sub",
    surround: "sur",
    trailer: "trl",
    trailers: "trl",
  }),
);

/**
 * A label as near to the old one as the limits allow: letters without marks, words written short, inner vowels left out,
 * at last cut off; different from the labels that are taken.
 *
 * @returns undefined when the limits allow no label at all
 */
export function shortLabel(
  label: string,
  limits: LabelLimits,
  taken: ReadonlySet<string>,
): string | undefined {
  for (const proposal of proposals(label, limits)) {
    if (labelFits(proposal, limits) && !taken.has(proposal)) return proposal;
  }
  const base = proposals(label, limits).at(-1) ?? "";
  for (let number = 2; number < 1000; number += 1) {
    const tail = `${number}`;
    const proposal = `${cut(base, limits.maxLength - tail.length)}${tail}`;
    if (labelFits(proposal, limits) && !taken.has(proposal)) return proposal;
  }
  return undefined;
}

function proposals(label: string, limits: LabelLimits): readonly string[] {
  const plain = allowed(label, limits);
  const words = plain.split(/\s+/).filter((word) => word !== "");
  const steps = [plain, words.join(" ")];
  let now = words;
  for (const shorten of [
    shortWord,
    withoutVowels,
    (word: string) => cut(word, 4),
    (word: string) => cut(word, 3),
  ]) {
    // From the longest word on, and no further than needed.
    const order = now
      .map((word, index) => ({ index, length: word.length }))
      .sort((a, b) => b.length - a.length || a.index - b.index);
    for (const { index } of order) {
      now = now.map((word, at) => (at === index ? shorten(word) : word));
      steps.push(now.join(" "));
    }
  }
  steps.push(now.join(""));
  const last = now.join("");
  // The end tells labels apart ("Trailer 1", "Trailer 2"), so a number at the end stays.
  const number = /\d+$/.exec(last)?.[0] ?? "";
  steps.push(`${cut(last.slice(0, last.length - number.length), limits.maxLength - number.length)}${number}`);
  steps.push(cut(last, limits.maxLength));
  return steps.map((text) => allowed(text, limits)).filter((text) => text !== "");
}

/** The label in characters that the unit shows: without marks, or in capitals, or without the character. */
function allowed(label: string, { takes }: LabelLimits): string {
  if ([...label].every(takes)) return label;
  return [...label.normalize("NFKD").replace(/\p{M}/gu, "")]
    .map((char) => {
      const shown = [char, char.toUpperCase(), LOOKALIKES[char] ?? ""].find(
        (form) => form !== "" && [...form].every(takes),
      );
      return shown ?? "";
    })
    .join("")
    .trim();
}

const LOOKALIKES: Readonly<Record<string, string>> = {
  "\u2013": "-",
  "\u2014": "-",
  "\u2018": "'",
  "\u2019": "'",
  "\u201c": '"',
  "\u201d": '"',
  "\u00d7": "x",
  "\u00df": "ss",
  _: "-",
  "(": "-",
  "&": "+",
};

function shortWord(word: string): string {
  const short = SHORT_WORDS.get(word.toLowerCase());
  if (short === undefined) return word;
  return /^\p{Lu}/u.test(word) ? short.charAt(0).toUpperCase() + short.slice(1) : short;
}

function withoutVowels(word: string): string {
  return word.length <= 3 ? word : word.charAt(0) + word.slice(1).replace(/[aeiou]/gi, "");
}

function cut(text: string, length: number): string {
  return [...text].slice(0, Math.max(0, length)).join("").trim();
}
