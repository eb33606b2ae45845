import type { ItemPath } from "../../../model/index.ts";
import type { Interpretation } from "../interpretation.ts";
import type { StructuralChange } from "../structural-change.ts";
import type { ExportTree } from "../tree.ts";

/** An export in the course of writing. */
export interface ExportState {
  readonly text: string;
  readonly tree: ExportTree;
  readonly interpretation: Interpretation;
}

/** A change of the structure, with what shows that it was made. */
export interface PlannedChange {
  /** Tells it from every other one. */
  readonly id: string;
  readonly kind: "add" | "remove" | "fill" | "empty";
  /** The item of the configuration that comes, goes, or has the places. */
  readonly item: ItemPath;
  /** Fields of the item, where places come or go. */
  readonly fields: readonly (readonly string[])[];
  /** Key of the item that was copied. */
  readonly like?: string | undefined;
  readonly changes: readonly StructuralChange[];
  /** Whether the export reads as it should after the change. */
  readonly holds: (next: Interpretation) => boolean;
}
