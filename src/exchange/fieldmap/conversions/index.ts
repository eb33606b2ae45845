import { type NumberFormat, numberOfText, textOfNumber, twelveDigits } from "../../../base/text/index.ts";
import type { Conversion } from "../../../model/index.ts";
import { type Circumstances, type NumericConversion, numericPair } from "./numeric.ts";

export { type Circumstances, octavesFromQ, qFromOctaves } from "./numeric.ts";

/** A value of a configuration. */
export type Scalar = string | number | boolean;

/** A conversion with all that it rests on: text of the export to value, and back. */
export interface Converter {
  /** The value, or undefined where the text is none. */
  readonly read: (raw: string) => Scalar | undefined;
  /** The text for a value in place of another text; undefined where there is none. */
  readonly write: (value: Scalar, before: string) => string | undefined;
  /** What the export should hold, for messages. */
  readonly expects: string;
}

export interface ConverterOptions {
  /** Whether the field is a number: decides what a place without a conversion holds. */
  readonly type: "text" | "number" | "boolean";
  readonly decimal: "." | ",";
  readonly known: Circumstances;
}

/** The converter of a rule; without a conversion the field's own type is read: text, number, true or false. */
export function converterOf(as: Conversion | undefined, options: ConverterOptions): Converter {
  if (as === undefined) {
    if (options.type === "number") return numericConverter({ kind: "number" }, options);
    return options.type === "boolean" ? BOOLEAN : TEXT;
  }
  switch (as.kind) {
    case "text":
      return TEXT;
    case "choice":
      return choiceConverter(as.choices);
    case "template":
      return templateConverter(as);
    default:
      return numericConverter(as, options);
  }
}

const TEXT: Converter = { read: (raw) => raw, write: (value) => String(value), expects: "a text" };

const BOOLEAN: Converter = choiceConverter([
  { export: "true", value: true },
  { export: "false", value: false },
]);

function choiceConverter(choices: readonly { readonly export: string; readonly value: Scalar }[]): Converter {
  const values = new Map(choices.map((choice) => [choice.export, choice.value]));
  return {
    read: (raw) => values.get(raw.trim()),
    write: (value, before) => {
      if (values.get(before.trim()) === value) return before;
      return choices.find((choice) => choice.value === value)?.export;
    },
    expects: `one of ${[...values.keys()].slice(0, 8).join(", ")}${values.size > 8 ? " ..." : ""}`,
  };
}

function templateConverter(as: Extract<Conversion, { readonly kind: "template" }>): Converter {
  const [head = "", tail = ""] = as.text.split("{}");
  const { pad, offset } = as;
  const counts = pad !== undefined || offset !== undefined;
  return {
    read: (raw) => {
      const inner = raw.trim();
      if (!counts) return `${head}${inner}${tail}`;
      if (!/^\d{1,9}$/.test(inner)) return undefined;
      return `${head}${String(Number(inner) + (offset ?? 0)).padStart(pad ?? 1, "0")}${tail}`;
    },
    write: (value, before) => {
      const text = String(value);
      if (text.length < head.length + tail.length || !text.startsWith(head) || !text.endsWith(tail))
        return undefined;
      const inner = text.slice(head.length, text.length - tail.length);
      if (!counts) return inner;
      if (!/^\d{1,9}$/.test(inner)) return undefined;
      const number = Number(inner) - (offset ?? 0);
      const width = /^0\d/.test(before.trim()) ? before.trim().length : 1;
      return number < 0 ? undefined : String(number).padStart(width, "0");
    },
    expects: counts ? "a count" : "a text",
  };
}

function numericConverter(as: NumericConversion, { decimal, known }: ConverterOptions): Converter {
  const { toValue, toExport } = numericPair(as, known);
  const format: NumberFormat = { decimal, suffix: as.suffix, decimals: as.decimals };
  const isCount = as.kind === "time" && as.unit === "samples" && as.decimals === undefined;
  const { round } = as;
  /** Samples are whole, unless the export has had parts of one. */
  const formatFor = (before: string) =>
    isCount && !/\d[.,]\d/.test(before) ? { ...format, decimals: 0 } : format;
  const rounded = (value: number) => {
    const nearest = round === undefined ? twelveDigits(value) : Math.round(value * 10 ** round) / 10 ** round;
    return nearest + 0;
  };
  return {
    read: (raw) => {
      const exported = numberOfText(raw, format);
      const value = exported === undefined ? Number.NaN : rounded(toValue(exported));
      return Number.isFinite(value) ? value : undefined;
    },
    write: (value, before) => {
      const exported = typeof value === "number" ? toExport(value) : Number.NaN;
      return Number.isFinite(exported) ? textOfNumber(exported, formatFor(before), before) : undefined;
    },
    expects: `a number${as.suffix === undefined ? "" : ` with '${as.suffix.trim()}'`}${decimal === "," ? " with a decimal comma" : ""}`,
  };
}
