import type {
  Conversion,
  FieldMap,
  ListRule,
  MapRule,
  NumbersRule,
  ValueRule,
} from "../../../src/model/index.ts";

type ValueOptions = Omit<ValueRule, "kind" | "field" | "at">;

/** The short forms in which the sample maps are written down. */
export function value(field: string, at: string, options: ValueOptions = {}): MapRule {
  return { kind: "value", field, at, ...options };
}

export function segment(field: string, part = 0): MapRule {
  return { kind: "value", field, segment: part };
}

export function numbers(
  field: string,
  at: string,
  separator: string,
  options: Partial<NumbersRule> = {},
): MapRule {
  return { kind: "numbers", field, at, separator, ...options };
}

/** A list of numbers of which each stands by itself. */
export function numbersOfEach(field: string, each: string, options: Partial<NumbersRule> = {}): MapRule {
  return { kind: "numbers", field, each, ...options };
}

export function list(
  name: string,
  each: string,
  rules: readonly MapRule[],
  options: Partial<ListRule> = {},
): MapRule {
  return { kind: "list", list: name, each, ...options, rules };
}

export function choice(choices: Readonly<Record<string, string | boolean>>): Conversion {
  return {
    kind: "choice",
    choices: Object.entries(choices).map(([exported, own]) => ({ export: exported, value: own })),
  };
}

/** Several values whose names in the export are those of the configuration's fields, or given. */
export function values(
  prefix: string,
  at: string,
  fields: readonly (string | readonly [field: string, name: string])[],
  options: ValueOptions = {},
): readonly MapRule[] {
  return fields.map((entry) => {
    const [field, name] = typeof entry === "string" ? [entry, entry] : entry;
    return value(`${prefix}${field}`, `${at}${name}`, options);
  });
}

export type SampleMap = Omit<FieldMap, "$schema" | "kind" | "schemaVersion" | "revision">;

export function sampleMap(map: SampleMap): FieldMap {
  return {
    $schema: "../../schemas/field-map.schema.json",
    kind: "boothkeep.field-map",
    schemaVersion: "1.0.0",
    revision: "1.0.0",
    ...map,
  };
}
