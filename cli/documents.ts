import type { Configuration, ReadDocument, UnitProfile } from "../src/public/boothkeep.ts";
import type { DocumentKind, DocumentTypes } from "../src/public/model.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";
import { wrap } from "./wrap.ts";

/** Reads a configuration from a file; what the reading had to say (an upgrade, a newer minor version) goes to standard error. */
export async function readConfigurationFile(file: string, context: Context): Promise<Configuration> {
  const { readConfiguration } = await import("../src/public/boothkeep.ts");
  return spoken(readConfiguration(readInput(file, context.cwd), { file }), file, context);
}

/** Reads a unit profile from a file. See {@link readConfigurationFile}. */
export async function readProfileFile(file: string, context: Context): Promise<UnitProfile> {
  const { readProfile } = await import("../src/public/boothkeep.ts");
  return spoken(readProfile(readInput(file, context.cwd), { file }), file, context);
}

/** Reads a document of another kind ("boothkeep.decisions"), or of one of several. See {@link readConfigurationFile}. */
export async function readDocumentFile<Kind extends DocumentKind>(
  file: string,
  kinds: Kind | readonly Kind[],
  context: Context,
): Promise<DocumentTypes[Kind]> {
  const { readDocument } = await import("../src/public/model.ts");
  return spoken(readDocument(readInput(file, context.cwd), { file, expect: kinds }), file, context);
}

function spoken<Document>(read: ReadDocument<Document>, file: string, context: Context): Document {
  for (const warning of read.warnings) {
    context.err(wrap(`boothkeep: ${file}: ${warning.words}`, context.columns));
  }
  return read.document;
}
