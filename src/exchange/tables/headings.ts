import { nominalThirdOctaveHz } from "../../acoustics/index.ts";
import { fieldAt } from "../../model/index.ts";
import type { TableColumn, TableLayout } from "./layouts/index.ts";
import { levelsOf } from "./rows.ts";

/** The heading of a field's column: its label and its unit, "Output delay (ms)". */
export function fieldHeading(path: string): string {
  const field = fieldAt(path);
  const label = field?.label ?? path;
  const unit = field?.unit ? ` (${field.unit})` : "";
  return `${label[0]!.toUpperCase()}${label.slice(1)}${unit}`;
}

/** The heading of a column of a table; a band of a graphic equalizer bears its nominal frequency, "31.5 Hz (dB)". */
export function columnHeading({ list }: TableLayout, { member, band }: TableColumn): string {
  return band === undefined ? fieldHeading(`${list}[].${member}`) : `${nominalThirdOctaveHz(band)} Hz (dB)`;
}

/** The columns by which a table belongs to one screen. */
export const SCREEN_HEADINGS = [fieldHeading("screen.siteId"), fieldHeading("screen.screenId")] as const;

/** The headings of the keys that a row starts with, outermost first. */
export function keyHeadings(layout: TableLayout): readonly string[] {
  return levelsOf(layout.list).map(({ keyField }) => fieldHeading(keyField));
}

/** A heading as it is compared: small letters, single spaces. */
export function plainHeading(heading: string): string {
  return heading.toLowerCase().replace(/\s+/g, " ").trim();
}

/** A heading without the unit in brackets at its end: "Level (dB)" gives "Level". */
export function withoutUnit(heading: string): string {
  if (!heading.endsWith(")")) return heading;
  const open = heading.indexOf("(", heading.lastIndexOf(")", heading.length - 2) + 1);
  return open < 0 ? heading : heading.slice(0, open).trimEnd();
}
