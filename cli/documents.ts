import type { Configuration, ReadDocument, UnitProfile } from "../src/model/index.ts";
import type { Context } from "./context.ts";
import { readInput } from "./files.ts";
import { wrap } from "./wrap.ts";

/** Reads a configuration from a file; what the reading had to say (an upgrade, a newer minor version) goes to standard error. */
export async function readConfigurationFile(file: string, context: Context): Promise<Configuration> {
  const { readConfiguration } = await import("../src/model/index.ts");
  return spoken(readConfiguration(readInput(file, context.cwd), { file }), file, context);
}

/** Reads a unit profile from a file. See {@link readConfigurationFile}. */
export async function readProfileFile(file: string, context: Context): Promise<UnitProfile> {
  const { readProfile } = await import("../src/model/index.ts");
  return spoken(readProfile(readInput(file, context.cwd), { file }), file, context);
}

/** Reads a document of another kind ("boothkeep.decisions"). See {@link readConfigurationFile}. */
export async function readDocumentFile<Document>(
  file: string,
  kind: string,
  context: Context,
): Promise<Document> {
  const { readDocument } = await import("../src/model/index.ts");
  return spoken(readDocument<Document>(readInput(file, context.cwd), { file, expect: kind }), file, context);
}

/** Reads a document of one of several kinds. See {@link readConfigurationFile}. */
export async function readAnyFile(
  file: string,
  kinds: readonly string[],
  context: Context,
): Promise<{ readonly kind: string; readonly document: unknown }> {
  const { readDocument } = await import("../src/model/index.ts");
  const read = readDocument(readInput(file, context.cwd), { file, expect: kinds });
  return { kind: read.kind, document: spoken(read, file, context) };
}

function spoken<Document>(read: ReadDocument<Document>, file: string, context: Context): Document {
  for (const warning of read.warnings) {
    context.err(wrap(`boothkeep: ${file}: ${warning.words}`, context.columns));
  }
  return read.document;
}
