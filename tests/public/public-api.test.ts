import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Declaration, Declarations, writeDeclarations } from "./declarations.ts";

const root = join(import.meta.dirname, "../..");
const golden = join(root, "tests/golden/public-api");

const DOORS = readdirSync(join(root, "src/public"))
  .filter((file) => file.endsWith(".ts"))
  .map((file) => file.replace(/\.ts$/, ""));

/** "boothkeep" for the short way, "boothkeep/report" for a part. */
const specifierOf = (door: string) => (door === "boothkeep" ? door : `boothkeep/${door}`);

const isSchemaType = ({ file }: Declaration) => file.startsWith("src/model/generated/");

/** A name for a text or a number says no more than "string" to whoever has to write one. */
const isPlain = ({ text }: Declaration) => /^type \w+ = (?:string|number|boolean);$/.test(text);

/** Two files that are made from schemas may each have a type that the schemas share: same name, same text. */
const identityOf = ({ name, text }: Declaration) => `${name} ${text}`;

describe("the public names", () => {
  const folder = mkdtempSync(join(tmpdir(), "boothkeep-declarations-"));
  const declarations = new Declarations(folder);
  const doors = new Map<string, ReadonlyMap<string, Declaration>>();

  beforeAll(() => {
    writeDeclarations(folder);
    for (const door of DOORS) doors.set(door, declarations.exportsOf(`src/public/${door}.ts`));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const all = () =>
    [...doors].flatMap(([door, names]) =>
      [...names].map(([name, declaration]) => ({ door, name, declaration })),
    );

  it("are found", () => {
    expect(all().length, "so few names: are the declarations still read?").toBeGreaterThan(500);
  });

  it("stand behind doors that the package opens", () => {
    const { exports } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
      exports: Readonly<Record<string, unknown>>;
    };
    const opened = Object.entries(exports).filter(([, target]) => typeof target !== "string");
    expect(Object.fromEntries(opened), "package.json and src/public").toEqual(
      Object.fromEntries(
        DOORS.map((door) => [
          door === "boothkeep" ? "." : `./${door}`,
          { types: `./dist/src/public/${door}.d.ts`, default: `./dist/src/public/${door}.js` },
        ]),
      ),
    );
  });

  it("stand behind one door each", () => {
    const first = new Map<string, string>();
    const twice = all().flatMap(({ door, name, declaration }) => {
      const places = [`the name ${name}`, `what ${identityOf(declaration)}`.slice(0, 200)];
      const known = places.filter((place) => first.has(place));
      for (const place of places) if (!first.has(place)) first.set(place, door);
      return known.map(
        (place) => `${place} stands behind ${specifierOf(first.get(place)!)} and ${specifierOf(door)}`,
      );
    });
    expect(twice, "leave it behind the door of its part, or rename one of the two").toEqual([]);
  });

  it("have a comment", () => {
    const silent = all().filter(({ declaration }) => declaration.doc === "");
    expect(
      silent.map(({ declaration }) => `${declaration.file}: ${declaration.name}`),
      "say in a comment what it is, with units and errors",
    ).toEqual([]);
  });

  it("are all that a user needs to write down what they take and give", () => {
    const known = new Set(all().map(({ declaration }) => identityOf(declaration)));
    const isKnown = (type: Declaration) => known.has(identityOf(type)) || isPlain(type);
    const missing = all().flatMap(({ door, name, declaration }) =>
      typesOf(declaration, declarations)
        .filter((type) => !isKnown(type))
        .map((type) => `${name} needs ${type.name} of ${type.file}: export it from src/public/${door}.ts`),
    );
    expect(missing).toEqual([]);
  });

  it.each(DOORS)("of %s are those that were agreed on", (door) => {
    const names = [...doors.get(door)!].map(([name, declaration]) => line(name, declaration, declarations));
    const text = `${specifierOf(door)}\n\n${names.join("\n")}\n`;
    const file = join(golden, `${door}.txt`);
    if (process.env.UPDATE_GOLDEN === "1") {
      mkdirSync(golden, { recursive: true });
      writeFileSync(file, text);
    }
    expect(text, "if the change is meant, run this test with UPDATE_GOLDEN=1").toBe(
      readFileSync(file, "utf8"),
    );
  });
});

/** Types that a declaration names, those behind a constant that it takes its type from among them. */
function typesOf(declaration: Declaration, declarations: Declarations): readonly Declaration[] {
  return declarations.namedBy(declaration).flatMap((named) => {
    if (named.kind !== "const" && named.kind !== "function") return [named];
    return declarations.namedBy(named).filter(({ kind }) => kind !== "const" && kind !== "function");
  });
}

/** A name with its signature; a type made from a schema by its name alone, since its schema says the rest. */
function line(name: string, declaration: Declaration, declarations: Declarations): string {
  if (isSchemaType(declaration)) return `type ${name}: of a schema`;
  const alias = name === declaration.name ? "" : `${name}: `;
  const constants = declarations.namedBy(declaration).filter(({ kind }) => kind === "const");
  return [
    alias + withoutWords(declaration),
    ...constants.map((constant) => `  with ${withoutWords(constant)}`),
  ].join("\n");
}

/** A table of codes by its codes alone: what it says to people is no signature. */
function withoutWords({ name, text }: Declaration): string {
  if (!/^const \w+: \{ readonly "[^"]*": \{/.test(text)) return text;
  const codes = [...text.matchAll(/readonly "([^"]*)": \{/g)].map(([, code]) => code);
  return [`const ${name}: of`, ...codes].join("\n    ");
}
