import { type Field, fieldAt } from "../../../model/index.ts";
import { fieldType } from "../field-type.ts";
import { FIELD_WORDS } from "../field-words.ts";
import { isSwitch, realValues, valueFit } from "./field-values.ts";
import { NAMES_BY_VALUE } from "./guess-forms.ts";
import type { ScalarShape } from "./shape.ts";
import { likeness, meaningOf, meaningOfField } from "./vocabulary.ts";

/** A place without a name of its own, and the field that its turn in the row gives it. */
export interface AlignedPlace {
  readonly at: string;
  readonly shape: ScalarShape;
  readonly path: string;
  /** From 0 to 1. */
  readonly value: number;
}

type Places = readonly (readonly [pointer: string, shape: ScalarShape])[];

/** What it costs to leave a field or a place out. */
const SKIPPED_FIELD = 0.04;
const SKIPPED_PLACE = 0.15;

/** A row of values whose mean says less than this is left to a person. */
const LEAST_MEAN = 0.3;

/**
 * Rows whose values have no names: "way 1 lf 40 4 600". People put settings in one order, kind and frequency ahead of gain
 * and width, which is that of the configuration's fields: the values are laid along them so that as many as can be fit, and
 * none against its form, its unit or what is usual.
 */
export function alignRows(
  prefix: string,
  places: Places,
  fields: readonly Field[],
  referenceOf: (field: Field, raws: readonly string[]) => number,
): readonly AlignedPlace[] {
  return rowsIn(places).flatMap(({ context, row }) => {
    const own = fieldsFor(context, prefix, fields);
    const aligned = align(row, own, referenceOf);
    const mean = aligned.reduce((sum, { value }) => sum + value, 0) / Math.max(1, aligned.length);
    return aligned.length >= 2 && mean >= LEAST_MEAN ? aligned : [];
  });
}

/** Places beside each other whose names differ in a number alone; those named by their values belong to them. */
function rowsIn(places: Places): readonly { readonly context: string; readonly row: Places }[] {
  const rows: { context: string; row: (readonly [string, ScalarShape])[]; named: number }[] = [];
  for (const place of places) {
    const base = place[0].replace(/(?<!\d)\d+$/, "");
    const around = base.slice(0, base.lastIndexOf("/") + 1);
    const byValue = NAMES_BY_VALUE.has(base.slice(around.length));
    const last = rows.at(-1);
    const same = rows.findLast(({ context }) => context === base);
    if (same !== undefined && !byValue) {
      same.row.push(place);
      same.named += 1;
    } else if (
      byValue &&
      last?.context.startsWith(around) &&
      !last.context.slice(around.length).includes("/")
    )
      last.row.push(place);
    else rows.push({ context: base, row: [place], named: 1 });
  }
  return rows.filter(({ named }) => named >= 2);
}

/** Fields of which the word ahead of a row speaks; those of the item itself where it speaks of none. */
function fieldsFor(context: string, prefix: string, fields: readonly Field[]): readonly Field[] {
  const meaning = meaningOf(context.slice(context.lastIndexOf("/")));
  const spoken = fields.filter(
    ({ path }) =>
      path.slice(prefix.length).includes(".") &&
      likeness(meaningOfField(path.slice(prefix.length).split(".").slice(0, -1).join(".")), meaning) > 0.3,
  );
  return spoken.length > 0 ? spoken : fields.filter(({ path }) => !path.slice(prefix.length).includes("."));
}

function align(
  row: Places,
  fields: readonly Field[],
  referenceOf: (field: Field, raws: readonly string[]) => number,
): readonly AlignedPlace[] {
  const values = row.map(([, shape]) => {
    const raws = shape.leaves.map(({ raw }) => raw);
    return fields.map((field) => worthOf(field, raws, referenceOf(field, raws)));
  });
  // best[i][j]: the best that places from i on can have of fields from j on.
  const best = Array.from({ length: row.length + 1 }, () => new Array<number>(fields.length + 1).fill(0));
  for (let i = row.length - 1; i >= 0; i -= 1) {
    for (let j = fields.length; j >= 0; j -= 1) {
      const without = best[i + 1]![j]! - SKIPPED_PLACE;
      const later = j < fields.length ? best[i]![j + 1]! - SKIPPED_FIELD : Number.NEGATIVE_INFINITY;
      const taken = j < fields.length ? best[i + 1]![j + 1]! + values[i]![j]! : Number.NEGATIVE_INFINITY;
      best[i]![j] = Math.max(without, later, taken);
    }
  }
  const found: AlignedPlace[] = [];
  for (let i = 0, j = 0; i < row.length; ) {
    const here = best[i]![j]!;
    if (j < fields.length && here === best[i + 1]![j + 1]! + values[i]![j]!) {
      const [at, shape] = row[i]!;
      found.push({ at, shape, path: fields[j]!.path, value: values[i]![j]! });
      i += 1;
      j += 1;
    } else if (j < fields.length && here === best[i]![j + 1]! - SKIPPED_FIELD) j += 1;
    else i += 1;
  }
  return found;
}

/** Numbers that fields of a unit have as a rule; frequencies in Hz or kHz. Common practice, no source. */
const USUAL: Readonly<Record<string, readonly [least: number, most: number]>> = {
  Hz: [0.015, 24_000],
  dB: [-130, 60],
  dBFS: [-80, 24],
  "dB SPL": [40, 130],
  ms: [0, 100_000],
  m: [0, 6000],
  W: [5, 20_000],
  Ω: [1, 32],
  "°C": [5, 110],
};

function worthOf({ path, refersTo }: Field, raws: readonly string[], reference: number): number {
  const fit = valueFit(path, raws);
  const real = realValues(raws);
  if (fit === -1 || reference === -1) return Number.NEGATIVE_INFINITY;
  // A column of nothing says only that it has a turn.
  if (real.length === 0) return 0.05;
  if (reference === 1) return 0.9;
  if (FIELD_WORDS[path] !== undefined) return fit > 0.5 ? 0.9 : Number.NEGATIVE_INFINITY;
  if (fieldType(path) === "number") return numberValue(path, real, fit);
  if (fieldType(path) === "boolean") return isSwitch(real) ? 0.5 : Number.NEGATIVE_INFINITY;
  if (fit >= 0.5) return 0.6;
  if (refersTo !== undefined) return 0.05;
  return 0.2;
}

function numberValue(path: string, real: readonly string[], fit: number): number {
  const numbers = real.map((raw) => Number.parseFloat(raw.replace(",", ".")));
  const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
  const never = Number.NEGATIVE_INFINITY;
  const unit = fieldAt(path)?.unit ?? "";
  if (/sensitivity/.test(path)) return least >= 70 && most <= 130 ? 0.5 : never;
  if (/[oO]rder$|slot$|position$|boxes$|seats$|Length$/.test(path)) {
    const isSlope = numbers.every((number) => number % 6 === 0);
    const top = /[oO]rder$/.test(path) ? (isSlope ? 48 : 8) : 10_000;
    return numbers.every(Number.isInteger) && least >= 0 && most <= top ? 0.45 : never;
  }
  if (fit >= 0.5) return 0.7;
  if (/(?:^|\.)(?:q|slope)$/.test(path)) return least >= 0 && most <= 40 ? 0.4 : never;
  const usual = USUAL[unit];
  if (usual !== undefined && (least < usual[0] || most > usual[1])) return never;
  return usual === undefined ? 0.2 : 0.4;
}
