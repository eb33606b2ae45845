import { labelSetOfExpression } from "./label-expression.ts";
import type { OldDocument, Upgrade } from "./upgrade.ts";

/** Unit profile 1.0 to 2.0: what a name may be is a set of characters and two lengths, not a regular expression. */
export const unitProfile10To20: Upgrade = {
  kind: "boothkeep.unit-profile",
  from: "1.0",
  to: "2.0",
  changes: ["labels.characters became a list of characters and ranges; labels.minLength came with it."],
  apply: (document) => {
    const { labels } = document;
    if (!isObject(labels) || typeof labels.characters !== "string") return document;
    const set = labelSetOfExpression(labels.characters);
    if (typeof set === "string") return document;
    const { characters, minLength, maxLength = Number.POSITIVE_INFINITY } = set;
    const longest =
      typeof labels.maxLength === "number" ? { maxLength: Math.min(labels.maxLength, maxLength) } : {};
    const shortest = minLength === 0 ? {} : { minLength };
    return { ...document, labels: { ...labels, ...longest, ...shortest, characters } };
  },
  refusal: ({ labels }) => {
    if (!isObject(labels) || typeof labels.characters !== "string") return undefined;
    const set = labelSetOfExpression(labels.characters);
    const why =
      typeof set === "string"
        ? set
        : typeof labels.maxLength === "number" && set.minLength > labels.maxLength
          ? `it asks for ${set.minLength} characters, where a name has ${labels.maxLength} at most`
          : undefined;
    if (why === undefined) return undefined;
    return {
      pointer: "/labels/characters",
      words: `The expression for names cannot be read as a set of characters and lengths: ${why}.`,
      next: `Write "schemaVersion": "2.0.0" and "characters" as a list of characters and ranges, such as ["A-Z", "0-9", " "].`,
    };
  },
};

function isObject(value: unknown): value is OldDocument {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
