import { BoothkeepError, type ErrorCode, type ErrorPlace } from "../../base/errors/index.ts";
import { type JsonFault, jsonFault, textPosition } from "./json-text.ts";
import { textOf } from "./text.ts";

/** Deepest nesting that is read; no document of ours is deeper than ten. */
export const MAX_DEPTH = 64;

const FAULT_CODES: Readonly<Record<JsonFault["kind"], ErrorCode>> = {
  syntax: "input.not-json",
  "duplicate-name": "input.duplicate-name",
  "number-range": "input.number-range",
  surrogate: "input.not-json",
};

/**
 * Reads strict JSON: UTF-8 with or without byte order mark, no name twice in an object, no number beyond a double, no
 * half surrogates, at most {@link MAX_DEPTH} levels, at most 32 MiB.
 *
 * @throws BoothkeepError input.too-large, input.not-utf8, input.not-json, input.duplicate-name, input.number-range,
 *   input.too-deep; with line, column and pointer
 */
export function readJson(content: Uint8Array | string, place: ErrorPlace = {}): unknown {
  try {
    return parseStrictly(textOf(content));
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at(place) : error;
  }
}

function parseStrictly(text: string): unknown {
  const outline = outlineOf(text);
  if (outline.depth > MAX_DEPTH) {
    throw new BoothkeepError("input.too-deep", `The text is nested more than ${MAX_DEPTH} levels deep.`, {
      place: textPosition(text, outline.deepestAt),
      next: "No boothkeep document is that deep: check that this is the right file.",
    });
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw faultError(text);
  }
  // Names that stand twice make the text hold more colons than the value has members.
  const count = countMembers(value);
  if (count.members !== outline.colons || !count.finite || /\\u[dD][89a-fA-F]/.test(text)) {
    const fault = jsonFault(text);
    if (fault !== undefined) throw faultError(text, fault);
  }
  return value;
}

function faultError(text: string, fault = jsonFault(text)): BoothkeepError {
  if (fault === undefined) throw new TypeError("JSON.parse refused a text that the strict reader takes");
  const empty = text.trim() === "";
  return new BoothkeepError(
    FAULT_CODES[fault.kind],
    empty ? "The file is empty." : `The text is not usable JSON: ${fault.words}.`,
    {
      place: {
        ...textPosition(text, fault.offset),
        ...(fault.pointer === "" ? {} : { pointer: fault.pointer }),
      },
      next: empty
        ? "Check that the file was copied whole."
        : "Mend this place in a text editor, or export the file again.",
    },
  );
}

interface Outline {
  readonly depth: number;
  readonly deepestAt: number;
  /** Colons outside strings: one for each member of an object. */
  readonly colons: number;
}

/** One quick pass over the characters, so that depth is known before anything recurses. */
function outlineOf(text: string): Outline {
  let depth = 0;
  let deepest = 0;
  let deepestAt = 0;
  let colons = 0;
  for (let i = 0; i < text.length; i += 1) {
    switch (text.charCodeAt(i)) {
      case 0x22:
        for (i += 1; i < text.length && text.charCodeAt(i) !== 0x22; i += 1) {
          if (text.charCodeAt(i) === 0x5c) i += 1;
        }
        break;
      case 0x3a:
        colons += 1;
        break;
      case 0x7b:
      case 0x5b:
        depth += 1;
        if (depth > deepest) {
          deepest = depth;
          deepestAt = i;
        }
        break;
      case 0x7d:
      case 0x5d:
        depth -= 1;
        break;
    }
  }
  return { depth: deepest, deepestAt, colons };
}

function countMembers(value: unknown): { readonly members: number; readonly finite: boolean } {
  let members = 0;
  let finite = true;
  const visit = (item: unknown): void => {
    if (typeof item === "number") finite &&= Number.isFinite(item);
    else if (Array.isArray(item)) item.forEach(visit);
    else if (typeof item === "object" && item !== null) {
      const values = Object.values(item);
      members += values.length;
      values.forEach(visit);
    }
  };
  visit(value);
  return { members, finite };
}
