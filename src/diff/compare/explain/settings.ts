import type { FindingKind, Severity } from "../../../base/findings/index.ts";
import { fieldAt } from "../../../model/index.ts";
import { listed, printValue, quoted } from "../../../words/index.ts";
import type { Change } from "../../changes/index.ts";
import type { Draft, Subject } from "../draft.ts";
import { type Scene, subjectAt } from "../scene.ts";

/** How a group of plain settings is told. */
export interface SettingsStyle {
  readonly code: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly remedy?: string;
  readonly subject?: Subject;
}

/** One finding for all changed settings of one item: "action: recall-preset instead of mute; wait: 200 ms instead of none". */
export function settingsDraft(
  scene: Scene,
  causes: readonly Change[],
  depth: number,
  style: SettingsStyle,
): Draft {
  const { subject = subjectAt(scene, causes[0]!.path.slice(0, depth)), ...rest } = style;
  const [only] = causes;
  const single = causes.length === 1 && only?.kind === "changed" && fieldAt(only.field) !== undefined;
  return {
    ...rest,
    subject,
    alike: JSON.stringify(causes.map(({ field, path, ...change }) => [field, path.slice(depth), change])),
    words: `${capital(listed(causes.map(settingWords), 4))}.`,
    ...(single
      ? { before: printValue(only.field, only.before), after: printValue(only.field, only.after) }
      : {}),
    causes,
  };
}

/** "Slot: 5 instead of 4"; of a part with parts, only whether it came or went. */
export function settingWords(change: Change): string {
  const label = fieldAt(change.field)?.label ?? partName(change.field);
  if (change.kind === "added")
    return plainValue(change.after) ? `${label}: now ${said(change.field, change.after)}` : `${label} added`;
  if (change.kind === "removed") return `${label} removed`;
  if (!plainValue(change.before) || !plainValue(change.after)) return `${label} changed`;
  return `${label}: ${said(change.field, change.after)} instead of ${said(change.field, change.before)}`;
}

/** A value inside a sentence: several words stand in quotes. */
function said(field: string, value: unknown): string {
  const text = printValue(field, value);
  return typeof value === "string" && /\s/.test(value) ? quoted(text) : text;
}

function plainValue(value: unknown): boolean {
  return typeof value !== "object";
}

/** The last member's name as words: "operation.nonSync" gives "non sync". */
function partName(field: string): string {
  const name = field.replaceAll("[]", "").split(".").at(-1) ?? field;
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
