import type { ExportSource } from "../../../model/index.ts";
import type { ExportTree } from "../tree.ts";
import { jsonTree } from "./json.ts";
import { keyValueTree } from "./key-value.ts";
import { linesTree } from "./lines.ts";
import { tableTree } from "./table.ts";
import { withParts } from "./value-parts.ts";
import { xmlTree } from "./xml.ts";

/**
 * Reads the text of an export into a tree of values.
 *
 * @throws BoothkeepError export.not-readable, input.not-json, input.duplicate-name, input.too-deep,
 *   input.number-range, field-map.unusable
 */
export function readTree(text: string, source: ExportSource): ExportTree {
  return withParts(wholeTree(text, source), text, source.parts);
}

function wholeTree(text: string, source: ExportSource): ExportTree {
  switch (source.kind) {
    case "json":
      return jsonTree(text);
    case "xml":
      return xmlTree(text, source);
    case "table":
      return tableTree(text, source);
    case "key-value":
      return keyValueTree(text, source);
    case "lines":
      return linesTree(text, source);
  }
}
