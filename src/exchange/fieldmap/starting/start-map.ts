import { BoothkeepError } from "../../../base/errors/index.ts";
import { pointerParts } from "../../../base/findings/index.ts";
import type { Encoding } from "../../../base/text/index.ts";
import {
  type ExportSource,
  FIELDS,
  type FieldMap,
  LIST_KEYS,
  type MapRule,
  type ValueParts,
} from "../../../model/index.ts";
import { type DecodedText, decodeText } from "../encoding.ts";
import { interpret } from "../interpret.ts";
import { loadFieldMap } from "../load-map.ts";
import { readTree } from "../sources/index.ts";
import { type ExportTree, pointerPart, positionIn } from "../tree.ts";
import { guessParts } from "./guess-parts.ts";
import { guessSource } from "./guess-source.ts";
import { type Proposal, type ProposedRule, proposeRules } from "./propose-rules.ts";
import { type Shape, shapeOf } from "./shape.ts";

/** A first map for an export, with what a person must finish. */
export interface StartedMap {
  readonly map: FieldMap;
  /** Each proposed rule with its reason. */
  readonly proposed: readonly ProposedRule[];
  /** Places of the export for which nothing is proposed, those of one kind together. */
  readonly open: readonly OpenPlace[];
  /** Fields that every configuration has and for which nothing is proposed. */
  readonly lacking: readonly string[];
}

/** Values of one kind that no rule reads. */
export interface OpenPlace {
  /** JSON Pointer with "*" for every item. */
  readonly at: string;
  readonly values: number;
  /** The first of them. */
  readonly raw: string;
  readonly line: number;
}

/**
 * Proposes a map for an export, by names and values: what kind of text it is, which lists and tables stand for which
 * lists of a configuration, what tells their items apart, which places hold which fields and in which units of measure.
 * What it proposes loads and reads the export as far as it goes; every rule is for a person to check.
 *
 * @throws BoothkeepError as the reading of an export
 */
export function startFieldMap(bytes: Uint8Array, { id }: { readonly id: string }): StartedMap {
  const { text, encoding, byteOrderMark } = decodeAny(bytes);
  const guessed = guessSource(text);
  const whole = readWhatever(
    text,
    encoding === "utf-8" || byteOrderMark ? guessed : { ...guessed, encoding },
  );
  const { tree, source } = inParts(whole, text);
  const shape = shapeOf(tree.root, tree.leaves);
  const decimal = usesDecimalComma(tree) ? "," : ".";
  const mapWith = (rules: readonly MapRule[]): FieldMap => ({
    kind: "boothkeep.field-map",
    schemaVersion: "1.0.0",
    id,
    revision: "0.1.0",
    label: `Begun from an export (${source.kind})`.slice(0, 64),
    notes:
      "Proposed by names and values. Check every rule; add what is missing and what is ignored on purpose.",
    source,
    ...(decimal === "," ? { decimal } : {}),
    rules: rules.length > 0 ? [...rules] : [{ kind: "value", field: "unit.serial", at: "/serial" }],
  });
  const proposal = shape === undefined ? { rules: [], words: [] } : proposeRules(shape, decimal);
  const fitting = onlyFitting(proposal, tree, mapWith);
  const map = mapWith(fitting.rules);
  const { used } = interpret(tree, loadFieldMap(map), {});
  return {
    map,
    proposed: fitting.words,
    open: openPlaces(tree, text, { used, shape }),
    lacking: lackingFields(map),
  };
}

/** Where guessed forms do not go together, every line is a value by itself. */
function readWhatever(
  text: string,
  source: ExportSource,
): { readonly tree: ExportTree; readonly source: ExportSource } {
  try {
    return { tree: readTree(text, source), source };
  } catch (error) {
    if (!(error instanceof BoothkeepError) || source.kind !== "lines") throw error;
    const plain: ExportSource = { ...source, forms: [{ form: "{word} {rest:rest}", at: "/line/-" }] };
    return { tree: readTree(text, plain), source: plain };
  }
}

/** The same with values taken apart that hold several things. */
function inParts(
  whole: { readonly tree: ExportTree; readonly source: ExportSource },
  text: string,
): { readonly tree: ExportTree; readonly source: ExportSource } {
  const shape = shapeOf(whole.tree.root, whole.tree.leaves);
  const raws = new Map<string, string[]>();
  for (const { pointer, raw, style } of whole.tree.leaves.values()) {
    if (style === "json-literal" && raw !== "null") continue;
    const at = kindOfPlace(pointer, shape);
    const known = raws.get(at);
    if (known === undefined) raws.set(at, [raw]);
    else known.push(raw);
  }
  const parts = [...raws].flatMap(([at, own]) => guessParts(at, own) ?? []);
  if (parts.length === 0) return whole;
  const source = { ...whole.source, parts: parts.slice(0, MOST_PARTS) as [ValueParts, ...ValueParts[]] };
  try {
    return { tree: readTree(text, source), source };
  } catch (error) {
    if (error instanceof BoothkeepError) return whole;
    throw error;
  }
}

/** As many as a source may have. */
const MOST_PARTS = 200;

/**
 * UTF-8, unless the bytes or an XML declaration say otherwise; where they are none, Latin-1: every byte is a letter there,
 * so a person must check.
 */
function decodeAny(bytes: Uint8Array): DecodedText {
  const beginning = Buffer.from(bytes.subarray(0, 200)).toString("latin1");
  if (/^<\?xml[^>]*\sencoding\s*=\s*["'](?:iso-8859-1|latin-?1)["']/i.test(beginning))
    return decodeText(bytes, "latin-1");
  try {
    return decodeText(bytes, withoutMark(bytes));
  } catch (error) {
    if (error instanceof BoothkeepError && error.code === "export.wrong-encoding")
      return decodeText(bytes, "latin-1");
    throw error;
  }
}

/** Text of plain letters in UTF-16 has a zero in every second byte. */
function withoutMark(bytes: Uint8Array): Encoding {
  const [first, second, third, fourth] = bytes;
  if (first !== 0 && second === 0 && third !== 0 && fourth === 0) return "utf-16le";
  return first === 0 && second !== 0 && third === 0 && fourth !== 0 ? "utf-16be" : "utf-8";
}

function usesDecimalComma(tree: ExportTree): boolean {
  const raws = [...tree.leaves.values()].flatMap(({ raw }) => raw.split(" "));
  const commas = raws.filter((raw) => /^[+-]?\d+,\d+\D{0,3}$/.test(raw)).length;
  return commas > raws.filter((raw) => /^[+-]?\d+\.\d+\D{0,3}$/.test(raw)).length;
}

/** Takes out the rules by which the export does not read: a wrong guess must not stand in the way of the others. */
function onlyFitting(
  proposal: Proposal,
  tree: ExportTree,
  mapWith: (rules: readonly MapRule[]) => FieldMap,
): Proposal {
  let { rules, words } = proposal;
  for (let round = 0; round < 20 && rules.length > 0; round += 1) {
    const { misfits } = interpret(tree, loadFieldMap(mapWith(rules)), {});
    if (misfits.length === 0) break;
    const wrong = new Set(misfits.map(({ field }) => field.replace(/\[\]$/, "")));
    rules = without(rules, wrong, "");
    words = words.filter(({ field }) => isThere(rules, field));
  }
  return { rules, words };
}

function without(rules: readonly MapRule[], wrong: ReadonlySet<string>, prefix: string): readonly MapRule[] {
  return rules.flatMap((rule): readonly MapRule[] => {
    if (rule.kind !== "list") return wrong.has(prefix + rule.field) ? [] : [rule];
    const path = prefix + rule.list;
    const inner = without(rule.rules, wrong, `${path}[].`);
    const isKeyed = inner.some((own) => own.kind !== "list" && own.field === LIST_KEYS[path]);
    return isKeyed ? [{ ...rule, rules: [...inner] as typeof rule.rules }] : [];
  });
}

function isThere(rules: readonly MapRule[], path: string, prefix = ""): boolean {
  return rules.some((rule) => {
    if (rule.kind !== "list") return [prefix + rule.field, `${prefix}${rule.field}[]`].includes(path);
    return prefix + rule.list === path || isThere(rule.rules, path, `${prefix}${rule.list}[].`);
  });
}

function openPlaces(
  tree: ExportTree,
  text: string,
  { used, shape }: { readonly used: ReadonlySet<string>; readonly shape: Shape | undefined },
): readonly OpenPlace[] {
  const found = new Map<string, { at: string; values: number; raw: string; line: number }>();
  for (const { pointer, raw, start } of tree.leaves.values()) {
    if (used.has(pointer) || tree.nothing.has(pointer)) continue;
    const at = kindOfPlace(pointer, shape);
    const known = found.get(at);
    if (known !== undefined) known.values += 1;
    else found.set(at, { at, values: 1, raw, line: positionIn(text, start).line });
  }
  return [...found.values()];
}

/** A place with "*" for every item of a list. */
function kindOfPlace(pointer: string, root: Shape | undefined): string {
  let shape = root;
  let place = "";
  for (const part of pointerParts(pointer)) {
    place += shape?.kind === "list" ? "/*" : pointerPart(part);
    shape =
      shape?.kind === "list" ? shape.item : shape?.kind === "record" ? shape.members.get(part) : undefined;
  }
  return place;
}

/** Fields without which nothing is a configuration. The schema asks for more inside items. */
const NEEDED = FIELDS.filter(({ path }) =>
  /^(?:screen\.(?:siteId|screenId|siteName|screenName|format|videoLatencyMs|temperatureC|seats)|unit\.(?:profileId|profileRevision|serial|firmware|sampleRateHz)|operation\.faderMark|network\.hostname)$/.test(
    path,
  ),
).map(({ path }) => path);

const NEEDED_LISTS = ["sources", "channels", "equalizations", "presets", "loudspeakers", "outputs"];

function lackingFields({ rules }: FieldMap): readonly string[] {
  return [...NEEDED, ...NEEDED_LISTS].filter((path) => !isThere(rules, path));
}
