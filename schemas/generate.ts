/**
 * Turns schemas/*.schema.json (the source) into
 *   src/model/generated/<name>.ts         types, checked in so that a review sees them change
 *   src/model/generated/validators/       ajv validators compiled ahead of time, one file a schema, made by every build
 *   src/model/generated/validators.js     the table of them; loads a validator when it is first used
 *
 * --check       fails when the checked-in types are stale
 * --validators  makes the validators only (what a build needs)
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import standaloneCode from "ajv/dist/standalone/index.js";
import addFormats from "ajv-formats";
import { build } from "esbuild";
import { compile } from "json-schema-to-typescript";

const schemaFolder = import.meta.dirname;
const target = join(schemaFolder, "..", "src", "model", "generated");

interface NamedSchema {
  /** "unit-profile" */
  readonly name: string;
  readonly schema: Record<string, unknown> & { readonly $id: string; readonly title: string };
}

function readSchemas(): NamedSchema[] {
  return readdirSync(schemaFolder)
    .filter((file) => file.endsWith(".schema.json"))
    .sort()
    .map((file) => ({
      name: file.replace(/\.schema\.json$/, ""),
      schema: JSON.parse(readFileSync(join(schemaFolder, file), "utf8")) as NamedSchema["schema"],
    }));
}

const INDEX_BANNER = "// Made by `npm run generate` from schemas/. Do not edit.\n";

async function typesOf({ schema, name }: NamedSchema): Promise<string> {
  const text = await compile(structuredClone(schema), name, {
    bannerComment: INDEX_BANNER.trim(),
    additionalProperties: false,
    ignoreMinAndMaxItems: true,
    unreachableDefinitions: true,
    format: false,
  });
  return asReadonly(text);
}

/** Documents are data that nobody changes in place: every member and every list is made readonly. */
function asReadonly(text: string): string {
  return text
    .replace(/^(\s*)("[^"]+"|[$\w]+)(\??): /gm, "$1readonly $2$3: ")
    .replace(
      /^(\s*readonly [^\n]*: |export type \w+ = )([^\n]*\[\].*)$/gm,
      (_all, head: string, rest: string) => head + rest.replace(/(\([^()]*\)|[\w"]+)\[\]/g, "readonly $1[]"),
    )
    .replace(/^(\s*)\}\[\]$/gm, "$1}[]");
}

/** Words for people: validators do without, which makes them a third smaller and quicker to load. */
const ANNOTATIONS = new Set(["description", "examples", "default", "$comment"]);
const MAPS_OF_SCHEMAS = new Set(["properties", "patternProperties", "$defs", "dependentSchemas"]);

function withoutAnnotations(schema: unknown): unknown {
  if (Array.isArray(schema)) return schema.map(withoutAnnotations);
  if (typeof schema !== "object" || schema === null) return schema;
  const kept = Object.entries(schema).filter(([name]) => !ANNOTATIONS.has(name));
  return Object.fromEntries(
    kept.map(([name, value]) =>
      MAPS_OF_SCHEMAS.has(name)
        ? [
            name,
            Object.fromEntries(Object.entries(value).map(([key, item]) => [key, withoutAnnotations(item)])),
          ]
        : [name, name === "const" || name === "enum" ? value : withoutAnnotations(value)],
    ),
  );
}

/** The property names of every object of a schema: for "did you mean". */
function propertyNames(schema: unknown): string[][] {
  if (typeof schema !== "object" || schema === null) return [];
  const own = (schema as { properties?: Record<string, unknown> }).properties;
  return [
    ...(own === undefined ? [] : [Object.keys(own)]),
    ...Object.values(schema).flatMap((value) => propertyNames(value)),
  ];
}

/** The values that tell the members of a union apart. */
function unionTags(schema: unknown): string[] {
  if (typeof schema !== "object" || schema === null) return [];
  const { kind } =
    (schema as { properties?: { kind?: { const?: string; enum?: string[] } } }).properties ?? {};
  const own = kind?.const === undefined ? (kind?.enum ?? []) : [kind.const];
  return [...own, ...Object.values(schema).flatMap(unionTags)];
}

/** What reading needs to know of a document kind besides its validator. */
function factsOf({ schema }: NamedSchema): Record<string, unknown> | undefined {
  const kind = (schema as { properties?: { kind?: { const?: string } } }).properties?.kind?.const;
  if (kind === undefined) return undefined;
  return { kind, version: schema["x-version"], names: propertyNames(schema), tags: unionTags(schema) };
}

/** So many errors of a document are gathered at most; a count above it is "at least". */
const MOST_ERRORS = 2000;

/**
 * ajv joins the errors of every referenced schema by copying all that it has so far, which takes minutes for a large
 * list of broken items. Here they are appended, and no more than a person could ever read.
 */
function withCollectedErrors(code: string): string {
  const join = /vErrors === null \? ([\w.]+\.errors) : vErrors\.concat\(\1\)/g;
  const changed = code.replace(join, "collectErrors(vErrors, $1)");
  if (/vErrors\.concat/.test(changed)) throw new Error("ajv's code joins errors in another way now");
  return `${changed}
function collectErrors(all, more) {
  if (all === null) return more;
  if (all.length < ${MOST_ERRORS}) for (const error of more) all.push(error);
  return all;
}`;
}

function compilerOf(schemas: readonly NamedSchema[]): Ajv2020 {
  const ajv = new Ajv2020({
    code: { source: true, esm: true },
    allErrors: true,
    discriminator: true,
    messages: false,
    strict: true,
    strictRequired: false,
    allowUnionTypes: true,
    inlineRefs: false,
  });
  addFormats.default(ajv);
  ajv.addKeyword("x-version");
  for (const { schema } of schemas) ajv.addSchema(withoutAnnotations(schema) as NamedSchema["schema"]);
  return ajv;
}

/** A validator as CommonJS, which can be loaded in the middle of a function that is not asynchronous. */
async function validatorOf({ schema }: NamedSchema, ajv: Ajv2020): Promise<string> {
  const code = withCollectedErrors(standaloneCode.default(ajv, { validate: schema.$id }));
  // ajv writes require() even for modules, so the code is bundled once more.
  const bundled = await build({
    stdin: { contents: code, resolveDir: schemaFolder, loader: "js" },
    bundle: true,
    write: false,
    format: "cjs",
    platform: "node",
    target: "node20.19",
    legalComments: "none",
    minify: true,
  });
  return bundled.outputFiles[0]!.text;
}

/** The table of the validators. A command needs two or three of them; all together take as long to load as Node itself. */
function validatorTable(schemas: readonly NamedSchema[]): string {
  const facts = schemas.flatMap((item) => {
    const found = factsOf(item);
    return found === undefined ? [] : [{ ...found, title: item.schema.title }];
  });
  const table = facts.map(({ title, ...rest }) => `{...${JSON.stringify(rest)}, validate: validate${title}}`);
  const exports = schemas.map(
    ({ schema, name }) => `export const validate${schema.title} = later("${name}");`,
  );
  return `${INDEX_BANNER}import { createRequire } from "node:module";
const load = createRequire(import.meta.url);
function later(name) {
  const validate = (value) => {
    const loaded = load("./validators/" + name + ".cjs").validate;
    const fits = loaded(value);
    validate.errors = loaded.errors;
    return fits;
  };
  return validate;
}
${exports.join("\n")}
export const documentSchemas = [${table.join(",\n")}];
`;
}

const SCHEMA_TABLE_TYPE = `
/** Every kind of document that has a schema. */
export interface DocumentSchema {
  readonly kind: string;
  readonly version: string;
  /** The property names of every object in it. */
  readonly names: readonly (readonly string[])[];
  /** The values of "kind" that tell the members of a union apart. */
  readonly tags: readonly string[];
  readonly validate: ValidateFunction;
}
export const documentSchemas: readonly DocumentSchema[];
`;

const schemas = readSchemas();
const flags = new Set(process.argv.slice(2));
mkdirSync(target, { recursive: true });

if (!flags.has("--validators")) {
  const wanted = new Map<string, string>();
  for (const item of schemas) wanted.set(`${item.name}.ts`, await typesOf(item));
  wanted.set(
    "validators.d.ts",
    `${INDEX_BANNER}import type { ValidateFunction } from "ajv";\n${schemas
      .map(({ schema }) => `export const validate${schema.title}: ValidateFunction;\n`)
      .join("")}${SCHEMA_TABLE_TYPE}`,
  );
  const stale = [...wanted].filter(([file, text]) => {
    const path = join(target, file);
    return !existsSync(path) || readFileSync(path, "utf8") !== text;
  });
  if (flags.has("--check")) {
    if (stale.length > 0) {
      console.error(`Stale: ${stale.map(([file]) => file).join(", ")}. Run 'npm run generate'.`);
      process.exitCode = 1;
    }
  } else {
    for (const [file, text] of stale) writeFileSync(join(target, file), text);
  }
}
const ajv = compilerOf(schemas);
mkdirSync(join(target, "validators"), { recursive: true });
for (const item of schemas) {
  writeFileSync(join(target, "validators", `${item.name}.cjs`), await validatorOf(item, ajv));
}
writeFileSync(join(target, "validators.js"), validatorTable(schemas));
