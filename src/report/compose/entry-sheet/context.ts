import type { Configuration, UnitProfile } from "../../../model/index.ts";
import type { SheetNumbers } from "./numbers.ts";
import type { EntryWords } from "./words.ts";

/** What every part of the sheet is made from. */
export interface SheetContext {
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
  readonly words: EntryWords;
  readonly numbers: SheetNumbers;
}
