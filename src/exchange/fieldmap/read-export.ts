import { BoothkeepError } from "../../base/errors/index.ts";
import { type Configuration, fieldAt, inspectDocument, type ShapeProblem } from "../../model/index.ts";
import { type Account, accountOf, exportPlaceWords } from "./account.ts";
import { layUnder } from "./base.ts";
import type { Draft } from "./draft.ts";
import { type DecodedText, decodeText } from "./encoding.ts";
import { circumstancesOf, interpret } from "./interpret.ts";
import type { Interpretation, MisfitValue, Origin } from "./interpretation.ts";
import type { LoadedMap } from "./load-map.ts";
import { readTree } from "./sources/index.ts";
import { type ExportTree, positionIn } from "./tree.ts";

/** The name of an export, and what it is read on top of. */
export interface ReadExportOptions {
  /** The file's name, for messages. */
  readonly file?: string;
  /** A configuration that gives what the export does not hold: the room, the loudspeakers, the calibration. */
  readonly base?: Configuration;
}

/** A configuration read from an export, with the account of the reading. */
export interface ReadExport {
  readonly configuration: Configuration;
  readonly account: Account;
}

/** An export with all that was found in it; for writing back and for checking maps. */
export interface OpenedExport {
  readonly configuration: Configuration;
  readonly decoded: DecodedText;
  readonly tree: ExportTree;
  readonly interpretation: Interpretation;
}

const SCHEMA_VERSION = "1.0.0";

/** So many places are told in an error's words. */
const TOLD = 3;

/**
 * Reads an export of a unit by a field map. Either everything fits or nothing is read.
 *
 * @throws BoothkeepError input.too-large, export.wrong-encoding, export.not-readable, input.* of JSON;
 *   export.does-not-fit with `data.problems`, each with the place in the export, the line and the field
 */
export function readExport(
  bytes: Uint8Array,
  loaded: LoadedMap,
  options: ReadExportOptions = {},
): ReadExport {
  const opened = openExport(bytes, loaded, options);
  return { configuration: opened.configuration, account: accountOfExport(opened, loaded) };
}

/** The account of a reading. */
export function accountOfExport(opened: OpenedExport, loaded: LoadedMap): Account {
  const { tree, decoded, interpretation, configuration } = opened;
  return accountOf(tree, decoded.text, loaded, interpretation, configuration);
}

/** {@link readExport} with the insides of the reading. */
export function openExport(
  bytes: Uint8Array,
  loaded: LoadedMap,
  options: ReadExportOptions = {},
): OpenedExport {
  return inFile(options.file, () => open(bytes, loaded, options.base));
}

/** What an export says by itself: perhaps not enough for a configuration. */
export interface InterpretedExport extends Omit<OpenedExport, "configuration"> {
  /** With what the base gives. */
  readonly whole: Draft;
}

/**
 * Reads what an export says without asking whether it makes a configuration.
 *
 * @throws BoothkeepError as readExport, for values that are none
 */
export function interpretExport(
  bytes: Uint8Array,
  loaded: LoadedMap,
  { file, base }: ReadExportOptions,
): InterpretedExport {
  return inFile(file, () => {
    const decoded = decodeText(bytes, loaded.map.source.encoding);
    const tree = readTree(decoded.text, loaded.map.source);
    const interpretation = interpret(tree, loaded, base === undefined ? {} : circumstancesOf(base));
    const { draft, misfits } = interpretation;
    if (misfits.length > 0) throw doesNotFit(misfits.map((misfit) => misfitProblem(misfit, decoded.text)));
    const whole = omitDocument(base === undefined ? draft : layUnder(draft, base, loaded.bound));
    return { decoded, tree, interpretation, whole };
  });
}

function inFile<T>(file: string | undefined, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof BoothkeepError) || file === undefined) throw error;
    throw error.at({ file });
  }
}

function open(bytes: Uint8Array, loaded: LoadedMap, base: Configuration | undefined): OpenedExport {
  const { whole, ...read } = interpretExport(bytes, loaded, base === undefined ? {} : { base });
  const document = { kind: "boothkeep.configuration", schemaVersion: SCHEMA_VERSION, ...whole };
  const inspected = inspectDocument(JSON.stringify(document), { expect: "boothkeep.configuration" });
  if (inspected.shape.total > 0) {
    const where = { origins: read.interpretation.origins, tree: read.tree, text: read.decoded.text };
    throw doesNotFit(inspected.shape.problems.map((problem) => shapeProblem(problem, where)));
  }
  return { configuration: inspected.document as Configuration, ...read };
}

function omitDocument(draft: Draft): Draft {
  const { kind: _kind, schemaVersion: _version, $schema: _schema, ...rest } = draft;
  return rest;
}

/** One thing that does not fit. */
export interface ExportProblem {
  /** JSON Pointer in the export's tree, where it is known. */
  readonly pointer?: string;
  readonly line?: number;
  /** The field of the configuration. */
  readonly field: string;
  readonly words: string;
}

function misfitProblem({ pointer, offset, field, words }: MisfitValue, text: string): ExportProblem {
  const label = fieldAt(field)?.label ?? field;
  const line = offset === undefined ? {} : { line: positionIn(text, offset).line };
  return { pointer, ...line, field, words: `${label}: ${words} (at ${exportPlaceWords(pointer)}).` };
}

function shapeProblem(
  { pointer, words }: ShapeProblem,
  { origins, tree, text }: { origins: ReadonlyMap<string, Origin>; tree: ExportTree; text: string },
): ExportProblem {
  const origin = origins.get(pointer);
  const from = origin !== undefined && "pointer" in origin ? origin.pointer : undefined;
  const leaf = from === undefined ? undefined : tree.leaves.get(from);
  return {
    ...(from === undefined ? {} : { pointer: from }),
    ...(leaf === undefined ? {} : { line: positionIn(text, leaf.start).line }),
    field: pointer,
    words: `${pointer || "the configuration"}: ${words}${from === undefined ? "" : ` (from ${exportPlaceWords(from)})`}`,
  };
}

function doesNotFit(problems: readonly ExportProblem[]): BoothkeepError {
  const told = problems
    .slice(0, TOLD)
    .map(({ words, line }) => (line === undefined ? words : `Line ${line}: ${words}`));
  const more = problems.length > TOLD ? [`(and ${problems.length - TOLD} more)`] : [];
  const [first] = problems;
  return new BoothkeepError(
    "export.does-not-fit",
    `The export does not fit the map. ${[...told, ...more].join(" ")}`,
    {
      place: {
        ...(first?.line === undefined ? {} : { line: first.line }),
        ...(first?.pointer === undefined ? {} : { pointer: first.pointer }),
      },
      next: "Nothing was read. Check that map and export belong together, or correct the map.",
      data: { problems },
    },
  );
}
