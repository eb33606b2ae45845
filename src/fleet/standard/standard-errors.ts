import { BoothkeepError } from "../../base/errors/index.ts";
import { pointer } from "../../base/findings/index.ts";
import { FIELDS, fieldOf, nearestName } from "../../model/index.ts";

export function unknownPlace(place: string, line: number): BoothkeepError {
  const field = fieldOf(place.split("/"));
  const meant = nearestName(
    field,
    FIELDS.map(({ path }) => path),
  );
  return new BoothkeepError("standard.unknown-place", `No configuration has a place '${place}'.`, {
    place: { pointer: pointer("lines", line, "place") },
    next:
      meant === undefined
        ? "Compare it with a configuration."
        : `Did you mean '${meant.replaceAll("[]", "/*").replaceAll(".", "/")}'?`,
  });
}

export function badLine(line: number, words: string, next: string): BoothkeepError {
  return new BoothkeepError("standard.bad-line", words, { place: { pointer: pointer("lines", line) }, next });
}
