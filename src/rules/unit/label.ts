import type { Configuration, DocumentPath } from "../../model/index.ts";
import { labelCharactersInWords, labelLimits } from "../../profile/index.ts";
import { set } from "../edits.ts";
import { screenRule } from "../rule.ts";

export const label = screenRule({
  code: "unit/label",
  kind: "record",
  severity: "warning",
  title: "Names have a length and characters that the unit can show.",
  why: "A name that is cut off or shown with blanks in place of letters makes a person in a dark booth choose wrongly.",
  source: "the unit's profile",
  remedy: "Shorten the name, or write it with characters that the unit has.",
  needsProfile: true,
  example: {
    breaks: [set("/presets/music/label", "Music between the shows, all day")],
    mends: [set("/presets/music/label", "Music")],
  },
  *check({ configuration, profile }) {
    const limits = labelLimits(profile!.labels);
    const { minLength, maxLength } = limits;
    for (const [path, text] of shownNames(configuration)) {
      const characters = [...text];
      const { length } = characters;
      if (length > maxLength) {
        yield {
          path,
          words: `'${text}' has ${length} characters; the unit shows ${maxLength}.`,
          numbers: { length, maxLength },
        };
      } else if (length < minLength) {
        yield {
          path,
          words: `'${text}' has ${length} characters; the unit takes no name of less than ${minLength}.`,
          numbers: { length, minLength },
        };
      } else if (!characters.every(limits.takes)) {
        yield {
          path,
          words: `'${text}' holds characters that the unit cannot show; it shows ${labelCharactersInWords(limits)}.`,
          numbers: { text },
        };
      }
    }
  },
});

function* shownNames({
  unit,
  sources,
  equalizations,
  presets,
  outputs,
}: Configuration): Iterable<readonly [DocumentPath, string]> {
  yield [["unit", "label"], unit.label];
  const lists = { sources, equalizations, presets, outputs };
  for (const [name, list] of Object.entries(lists)) {
    for (const [i, item] of list.entries()) yield [[name, i, "label"], item.label];
  }
}
