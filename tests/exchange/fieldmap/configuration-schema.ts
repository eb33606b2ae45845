import { readFileSync } from "node:fs";
import { join } from "node:path";

interface SchemaNode {
  readonly $ref?: string;
  readonly const?: string;
  readonly enum?: readonly string[];
  readonly oneOf?: readonly SchemaNode[];
  readonly items?: SchemaNode;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
}

/** The fields of a configuration that hold one of several words, with the words, from the schema itself. */
export function enumerationsOf(): ReadonlyMap<string, ReadonlySet<string>> {
  const file = join(import.meta.dirname, "../../../schemas/configuration.schema.json");
  const schema = JSON.parse(readFileSync(file, "utf8")) as SchemaNode;
  const found = new Map<string, Set<string>>();
  const visit = (node: SchemaNode, path: string): void => {
    const own = node.$ref === undefined ? node : schema.$defs![node.$ref.slice("#/$defs/".length)]!;
    for (const word of [...(own.enum ?? []), ...(own.const === undefined ? [] : [own.const])]) {
      found.set(path, (found.get(path) ?? new Set()).add(word));
    }
    for (const one of own.oneOf ?? []) visit(one, path);
    for (const [name, member] of Object.entries(own.properties ?? {}))
      visit(member, path === "" ? name : `${path}.${name}`);
    if (own.items !== undefined) visit(own.items, `${path}[]`);
  };
  visit(schema, "");
  found.delete("kind");
  return found;
}
