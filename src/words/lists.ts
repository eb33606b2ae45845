/** "1 crossing", "3 crossings". */
export function counted(count: number, one: string, several = `${one}s`): string {
  return `${count} ${count === 1 ? one : several}`;
}

/** "A", "A and B", "A, B and C". */
export function listedInFull(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/**
 * As {@link listedInFull}; of more than `most` the first ones and how many more, "and" before the last of what is shown. Parts
 * with commas: semicolons.
 */
export function listed(words: readonly string[], most = 4): string {
  const shown =
    words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : words;
  const gap = shown.some((word) => word.includes(",")) ? "; " : ", ";
  return shown.length < 2 ? (shown[0] ?? "") : `${shown.slice(0, -1).join(gap)} and ${shown.at(-1)}`;
}

/** "A, B, C and 4 more": "and" only before how many more there are. */
export function firstOf(names: readonly string[], most: number, joint = ", "): string {
  const more = names.length - most;
  return names.slice(0, most).join(joint) + (more > 0 ? ` and ${more} more` : "");
}

/** "A", "A and B", "A and 2 others". */
export function firstAndOthers(names: readonly string[], others: string): string {
  if (names.length <= 2) return names.join(" and ");
  return `${names[0]} and ${names.length - 1} ${others}`;
}

/** A name as somebody typed it, in a sentence of a comparison: “Speech”. Elsewhere names stand between straight quotes. */
export function quoted(name: unknown): string {
  return `“${String(name)}”`;
}

/** A text from outside inside a sentence, shortened to forty characters: 'Speech'. */
export function quotedShort(text: string): string {
  return `'${text.length > 40 ? `${text.slice(0, 39)}…` : text}'`;
}
