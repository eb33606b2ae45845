import { type ReportDocument, renderHtml, renderText, type UnitProfile } from "../../src/public/boothkeep.ts";
import { jsonText } from "../../src/public/report.ts";
import type { Context } from "../context.ts";
import type { NewFile } from "../files.ts";
import { findProfile, profileFrom } from "../profiles.ts";

/** Options of the command. */
export interface MigrateOptions {
  readonly to: string;
  readonly from?: string | undefined;
  readonly decisions?: string;
  readonly classes?: string;
  readonly out?: string;
  readonly plan?: string;
  readonly sheets?: string;
  readonly into?: string;
  readonly profiles?: string | undefined;
  readonly recommended?: boolean;
  readonly json?: boolean;
}

/** The profile of the old unit: what --from says, the new one where it is the same, else by its id. */
export async function oldProfile(
  id: string,
  { from, profiles }: Pick<MigrateOptions, "from" | "profiles">,
  { file, to, context }: { readonly file: string; readonly to: UnitProfile; readonly context: Context },
): Promise<UnitProfile> {
  const search = { folder: profiles, near: file };
  if (from !== undefined) return profileFrom(from, search, context);
  return id === to.id ? to : findProfile(id, search, context);
}

/** Papers as files in a folder, as pages and as text. */
export function paperFiles(
  papers: Readonly<Record<string, ReportDocument>>,
  folder: string,
): readonly NewFile[] {
  return Object.entries(papers).flatMap(([name, document]) => [
    { file: `${folder}/${name}.html`, content: renderHtml(document) },
    { file: `${folder}/${name}.txt`, content: renderText(document) },
  ]);
}

/** The files of papers by these names. */
export function paperFileNames(names: readonly string[], folder: string): readonly string[] {
  return names.flatMap((name) => [`${folder}/${name}.html`, `${folder}/${name}.txt`]);
}

/** A document as a file: indented JSON with a line end. */
export function jsonFile(document: unknown): string {
  return `${jsonText(document, 2)}\n`;
}
