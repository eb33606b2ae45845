import { nearestName } from "../../../model/index.ts";

/** So many names are told of a list. */
const MOST_NAMES = 12;

/** What could have been meant by a name that is not there, and what is there. */
export function meantWords(name: string, known: readonly string[]): string {
  if (known.length === 0) return "There are none.";
  const meant = nearestName(name, known);
  const more = known.length > MOST_NAMES ? ` and ${known.length - MOST_NAMES} more` : "";
  const listed = `There are: ${known.slice(0, MOST_NAMES).join(", ")}${more}.`;
  return meant === undefined ? listed : `Was '${meant}' meant? ${listed}`;
}
