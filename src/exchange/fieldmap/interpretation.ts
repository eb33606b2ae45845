import type { ItemPath, ListRule, MapRule, NumbersRule, ValueRule } from "../../model/index.ts";
import type { Draft } from "./draft.ts";
import type { Leaf } from "./tree.ts";

/** What ties one place of the export to one place of the configuration. */
export type Binding =
  | ({ readonly kind: "value"; readonly rule: ValueRule; readonly field: string } & BoundPlace)
  | ({
      readonly kind: "number";
      readonly rule: NumbersRule;
      readonly field: string;
      readonly index: number;
    } & BoundPlace)
  | ({ readonly kind: "numbers"; readonly rule: NumbersRule; readonly field: string } & BoundPlace)
  | { readonly kind: "presence"; readonly rule: ListRule; readonly leaf: Leaf; readonly item: ItemPath };

interface BoundPlace {
  readonly leaf: Leaf;
  /** The item in which the field stands; empty for the configuration itself. */
  readonly item: ItemPath;
  /** The field's names from there on. */
  readonly names: readonly string[];
}

/** A place of a rule where the export has no value. */
export interface MissingPlace {
  readonly rule: ValueRule | NumbersRule;
  /** JSON Pointer of the item in the export. */
  readonly at: string;
  readonly item: ItemPath;
  readonly names: readonly string[];
  readonly field: string;
}

/** A list of the configuration as the export has it. */
export interface FoundList {
  readonly rule: ListRule;
  /** The list in the configuration. */
  readonly path: ItemPath;
  /** JSON Pointer of the item around it in the export. */
  readonly around: string;
  readonly items: readonly FoundItem[];
}

export interface FoundItem {
  /** Path of the item in the configuration, which its bindings have too. */
  readonly path: ItemPath;
  /** JSON Pointer in the export. */
  readonly pointer: string;
}

/** Where a field's value comes from. */
export type Origin =
  | { readonly kind: "export"; readonly pointer: string }
  | { readonly kind: "place"; readonly pointer: string }
  | { readonly kind: "map" }
  | { readonly kind: "joined" };

/** A value of the export that does not fit. */
export interface MisfitValue {
  /** JSON Pointer in the export's tree. */
  readonly pointer: string;
  readonly offset?: number;
  /** Path of the field. */
  readonly field: string;
  readonly words: string;
}

export interface Interpretation {
  readonly draft: Draft;
  readonly bindings: readonly Binding[];
  /** Places that the export need not have, and has not. */
  readonly missing: readonly MissingPlace[];
  readonly lists: readonly FoundList[];
  readonly misfits: readonly MisfitValue[];
  /** Pointers of the export's values that a rule looked at. */
  readonly used: ReadonlySet<string>;
  /** By JSON Pointer in the draft. */
  readonly origins: ReadonlyMap<string, Origin>;
  /** Pointers of rules that gave at least one value. */
  readonly reached: ReadonlySet<MapRule>;
}
