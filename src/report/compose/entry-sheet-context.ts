import type { Configuration, UnitProfile } from "../../model/index.ts";
import type { SheetNumbers } from "./entry-sheet-numbers.ts";
import type { EntryWords } from "./entry-sheet-words.ts";

/** What every part of the sheet is made from. */
export interface SheetContext {
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
  readonly words: EntryWords;
  readonly numbers: SheetNumbers;
}
