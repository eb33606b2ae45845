import { readFileSync } from "node:fs";
import { join } from "node:path";

export interface SchemaNode {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
  readonly oneOf?: readonly SchemaNode[];
  readonly anyOf?: readonly SchemaNode[];
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly type?: string;
  readonly required?: readonly string[];
  readonly enum?: readonly string[];
  readonly const?: string;
}

/** What the configuration schema holds, read from its file alone: leaves and lists by their paths. */
export interface SchemaParts {
  readonly root: SchemaNode;
  readonly leaves: ReadonlyMap<string, SchemaNode>;
  readonly lists: ReadonlyMap<string, SchemaNode>;
  readonly resolve: (node: SchemaNode) => SchemaNode;
}

export function schemaParts(): SchemaParts {
  const file = join(import.meta.dirname, "..", "..", "..", "schemas", "configuration.schema.json");
  const schema = JSON.parse(readFileSync(file, "utf8")) as SchemaNode;
  const leaves = new Map<string, SchemaNode>();
  const lists = new Map<string, SchemaNode>();
  const resolve = (node: SchemaNode): SchemaNode =>
    node.$ref === undefined ? node : schema.$defs![node.$ref.replace("#/$defs/", "")]!;
  const walk = (given: SchemaNode, path: string): void => {
    const node = resolve(given);
    const branches = node.oneOf ?? node.anyOf;
    if (branches !== undefined) for (const branch of branches) walk(branch, path);
    else if (node.properties !== undefined) {
      for (const [name, child] of Object.entries(node.properties))
        walk(child, path === "" ? name : `${path}.${name}`);
    } else if (node.type === "array") {
      lists.set(path, node);
      walk(node.items!, `${path}[]`);
    } else leaves.set(path, node);
  };
  walk(schema, "");
  return { root: schema, leaves, lists, resolve };
}
