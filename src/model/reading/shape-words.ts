import type { ErrorObject } from "ajv";
import { pointerParts } from "../../base/findings/index.ts";
import type { DocumentSchema } from "../generated/validators.js";
import { nearestName } from "./nearest-name.ts";
import type { ShapeProblem } from "./shape-problem.ts";

/** Why a field that exists elsewhere must not stand at a place. */
const NOT_HERE: Readonly<Record<string, string>> = {
  normalization: "only a Bessel filter has a normalization",
  slope: "a shelf takes 'q' or 'slope', not both",
};

const TYPES: Readonly<Record<string, string>> = {
  object: "an object {...}",
  array: "a list [...]",
  string: "a text in double quotes",
  number: "a number",
  integer: "a whole number",
  boolean: "true or false",
  null: "null",
};

const FORMATS: Readonly<Record<string, string>> = {
  date: "a date like 2026-03-11",
  "date-time": "a date and time like 2026-03-11T22:15:00+01:00",
  ipv4: "an address like 192.0.2.31",
};

const PATTERNS: Readonly<Record<string, string>> = {
  "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$":
    "an id: up to 64 letters, digits, points, hyphens and underscores, a letter or digit first",
  "^(0|[1-9][0-9]*)\\.(0|[1-9][0-9]*)\\.(0|[1-9][0-9]*)$": "a version like 1.0.0",
};

/** One error of a validator in words; undefined where another error of the same place says it better. */
export function shapeProblem(
  error: ErrorObject,
  value: unknown,
  schema: DocumentSchema,
): ShapeProblem | undefined {
  const at = valueAt(value, error.instancePath);
  const pointer = error.instancePath;
  const field = fieldName(pointer);
  const { params } = error;
  switch (error.keyword) {
    case "if":
      return undefined;
    case "additionalProperties":
    case "unevaluatedProperties":
      return unknownField(error, at, schema);
    case "required": {
      const name = String(params.missingProperty);
      return { fault: "missing-field", pointer, words: `The field '${name}' is missing.`, meant: name };
    }
    case "dependentRequired":
      return {
        fault: "missing-field",
        pointer,
        words: `The field '${params.missingProperty}' is missing; '${params.property}' needs it.`,
        meant: String(params.missingProperty),
      };
    case "false schema":
      return {
        fault: "field-not-here",
        pointer,
        words: `'${field}' must not stand here: ${NOT_HERE[field] ?? "it contradicts the other fields"}.`,
      };
    case "type": {
      const expected = [params.type].flat().map((name) => TYPES[String(name)] ?? String(name));
      return {
        fault: "wrong-type",
        pointer,
        words: `${subject(field)} is ${printed(at)}; ${expected.join(" or ")} was expected.`,
      };
    }
    case "enum":
      return unknownValue(pointer, at, (params.allowedValues as readonly unknown[]).map(String));
    case "const":
      return unknownValue(pointer, at, [String(params.allowedValue)]);
    case "discriminator":
      return discriminated(error, at, schema);
    case "minimum":
    case "maximum":
    case "exclusiveMinimum":
    case "exclusiveMaximum":
    case "multipleOf":
      return { fault: "outside-limits", pointer, words: limitWords(error, field, at) };
    case "minItems":
    case "maxItems":
    case "uniqueItems":
    case "minProperties":
    case "maxProperties":
      return { fault: "wrong-count", pointer, words: countWords(error, field, at) };
    case "minLength":
    case "maxLength":
    case "pattern":
    case "format":
      return { fault: "wrong-text", pointer, words: textWords(error, field, at) };
    default:
      return {
        fault: "wrong-type",
        pointer,
        words: `${subject(field)} does not fit the schema (${error.keyword}).`,
      };
  }
}

function unknownField(error: ErrorObject, at: unknown, schema: DocumentSchema): ShapeProblem {
  const name = String(error.params.additionalProperty ?? error.params.unevaluatedProperty);
  // A field of a sibling kind has a place elsewhere: nobody meant itself.
  const others = namesOf(at, schema).filter((other) => other !== name);
  const meant = nearestName(name, others);
  return {
    fault: "unknown-field",
    pointer: `${error.instancePath}/${name.replaceAll("~", "~0").replaceAll("/", "~1")}`,
    words: `There is no field '${clip(name)}' here.${meant === undefined ? "" : ` Did you mean '${meant}'?`}`,
    ...(meant === undefined ? {} : { meant }),
  };
}

/** The property names of the object of the schema that a value resembles most. */
function namesOf(value: unknown, schema: DocumentSchema): readonly string[] {
  const own = Object.keys(value as object);
  const shared = (names: readonly string[]) => own.filter((name) => names.includes(name)).length;
  const most = Math.max(...schema.names.map(shared));
  return schema.names.filter((names) => shared(names) === most).flat();
}

function unknownValue(pointer: string, at: unknown, allowed: readonly string[]): ShapeProblem {
  const meant = typeof at === "string" ? nearestName(at, allowed) : undefined;
  const choice = allowed.length > 8 ? "" : ` Possible: ${allowed.join(", ")}.`;
  return {
    fault: "unknown-value",
    pointer,
    words: `${subject(fieldName(pointer))} is ${printed(at)}, which is not known here.${
      meant === undefined ? choice : ` Did you mean '${meant}'?`
    }`,
    ...(meant === undefined ? {} : { meant }),
  };
}

function discriminated(error: ErrorObject, at: unknown, schema: DocumentSchema): ShapeProblem | undefined {
  const tag = String(error.params.tag);
  // A missing tag is told by "required".
  if (typeof at === "object" && at !== null && !(tag in at)) return undefined;
  const tagValue = (at as Record<string, unknown>)[tag];
  const meant = typeof tagValue === "string" ? nearestName(tagValue, schema.tags) : undefined;
  return {
    fault: "unknown-value",
    pointer: `${error.instancePath}/${tag}`,
    words: `'${tag}' is ${printed(tagValue)}, which is not known here.${
      meant === undefined ? "" : ` Did you mean '${meant}'?`
    }`,
    ...(meant === undefined ? {} : { meant }),
  };
}

function limitWords({ keyword, params }: ErrorObject, field: string, at: unknown): string {
  const bound: Readonly<Record<string, string>> = {
    minimum: `at least ${params.limit}`,
    maximum: `at most ${params.limit}`,
    exclusiveMinimum: `more than ${params.limit}`,
    exclusiveMaximum: `less than ${params.limit}`,
    multipleOf: `a multiple of ${params.multipleOf}`,
  };
  return `${subject(field)} is ${printed(at)}; ${bound[keyword]} is possible.`;
}

function countWords({ keyword, params }: ErrorObject, field: string, at: unknown): string {
  const count = Array.isArray(at) ? at.length : Object.keys(at as object).length;
  switch (keyword) {
    case "uniqueItems":
      return `${subject(field)} holds the same item twice (numbers ${params.j + 1} and ${params.i + 1}).`;
    case "minItems":
    case "minProperties":
      return `${subject(field)} holds ${count}; at least ${params.limit} are needed.`;
    default:
      return `${subject(field)} holds ${count}; at most ${params.limit} are possible.`;
  }
}

function textWords({ keyword, params }: ErrorObject, field: string, at: unknown): string {
  switch (keyword) {
    case "minLength":
      return `${subject(field)} is too short: at least ${params.limit} characters are needed.`;
    case "maxLength":
      return `${subject(field)} is too long: at most ${params.limit} characters are possible.`;
    case "format":
      return `${subject(field)} is ${printed(at)}; ${FORMATS[params.format] ?? params.format} was expected.`;
    default:
      return `${subject(field)} is ${printed(at)}; ${
        PATTERNS[params.pattern] ?? `a text that matches ${params.pattern}`
      } was expected.`;
  }
}

/** "'gainDb'", "Number 3 of 'gainsDb'", "The document". */
function subject(field: string): string {
  return field === "" ? "The document" : `'${field}'`;
}

/** The name of the field a pointer ends in: for items of a list the list's name and the number from 1. */
function fieldName(pointer: string): string {
  const parts = pointerParts(pointer);
  const last = parts.at(-1);
  if (last === undefined) return "";
  const list = parts.at(-2);
  return /^\d+$/.test(last) && list !== undefined ? `${list}, number ${Number(last) + 1}` : last;
}

function valueAt(value: unknown, pointer: string): unknown {
  return pointerParts(pointer).reduce<unknown>(
    (item, part) =>
      typeof item === "object" && item !== null ? (item as Record<string, unknown>)[part] : undefined,
    value,
  );
}

function printed(value: unknown): string {
  if (typeof value === "string") return `"${clip(value)}"`;
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object" && value !== null) return "an object";
  return String(value);
}

function clip(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}
