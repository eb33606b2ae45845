import { fitsStars } from "../../base/text/index.ts";
import type { StandardAnswer, StandardDecisions } from "../../model/index.ts";
import { fitsPlace, moreSpelledOut } from "./pattern.ts";

/** An answer with its position in the decisions file. */
export interface GivenAnswer extends StandardAnswer {
  readonly index: number;
}

/**
 * The answer of a decisions file to what is asked at a place of a screen. An answer that names screens goes before one
 * that does not, a place with more of it spelled out before one with less, the later of two that are alike.
 */
export function answerAt(
  decisions: StandardDecisions | undefined,
  path: readonly string[],
  screen: { readonly siteId: string; readonly screenId: string },
): GivenAnswer | undefined {
  const name = `${screen.siteId}/${screen.screenId}`;
  const [first] = (decisions?.answers ?? [])
    .map((answer, index) => ({ ...answer, index }))
    .filter(({ place, screens, choose }) => {
      if (choose === null || !fitsPlace(place.split("/"), path)) return false;
      return screens === undefined || screens.some((pattern) => fitsStars(pattern, name));
    })
    .sort(
      (a, b) =>
        Number(b.screens !== undefined) - Number(a.screens !== undefined) ||
        moreSpelledOut(a.place.split("/"), b.place.split("/")) ||
        b.index - a.index,
    );
  return first;
}
