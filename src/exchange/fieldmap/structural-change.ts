/** A change of an export by which it has more or fewer parts. Places are JSON Pointers in the export's tree. */
export type StructuralChange = ItemCopy | PlaceRemoval | NewPlace;

/** A new item: a copy of another, so that it is written as the export writes such items. */
export interface ItemCopy {
  readonly kind: "copy";
  /** The item that is copied. */
  readonly template: string;
  /** The list, or the object, to which the copy is added. */
  readonly parent: string;
  /** The copy's name, where the items of the parent have names. */
  readonly name: string | undefined;
  /** The item of the same parent after which the copy stands; else it stands before `before`, else at the end. */
  readonly after?: string | undefined;
  readonly before?: string | undefined;
  /** What the values of the template become in the copy, by their places in the template. */
  readonly raws: ReadonlyMap<string, string>;
}

/** An item or a value that goes, with everything in it. */
export interface PlaceRemoval {
  readonly kind: "remove";
  readonly pointer: string;
  /** Values that say nothing without those that go: no reason for their line to stay. */
  readonly besides?: readonly string[];
}

/** A value where the export has none. */
export interface NewPlace {
  readonly kind: "set";
  /** The item in which it stands. */
  readonly item: string;
  /** Names from there on. */
  readonly names: readonly string[];
  readonly raw: string;
  /** True: without quotes, where the format writes numbers and words apart. */
  readonly bare: boolean;
  /** True: only there because others of the same line want it. */
  readonly filler: boolean;
}
