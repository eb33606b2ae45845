import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, relative, sep } from "node:path";

const root = join(import.meta.dirname, "../..");

/** A declaration of a generated .d.ts file. */
export interface Declaration {
  /** The source file below the project's folder, with "/" and ".ts". */
  readonly file: string;
  readonly name: string;
  readonly kind: "function" | "const" | "class" | "interface" | "type";
  /** On one line, without comments, "export" and "declare". */
  readonly text: string;
  /** The comment before it; "" without one. */
  readonly doc: string;
}

/** Where a name of a file comes from. */
interface Source {
  readonly file: string;
  readonly name: string;
}

interface DeclarationFile {
  readonly declared: ReadonlyMap<string, Declaration>;
  readonly imported: ReadonlyMap<string, Source>;
  readonly exported: ReadonlyMap<string, Source>;
  /** Files of which all names go out. */
  readonly stars: readonly string[];
}

/** Has the compiler write the declarations of src/ into a folder, as the build does. */
export function writeDeclarations(folder: string): void {
  const compiler = createRequire(import.meta.url).resolve("typescript/package.json");
  const script = join(dirname(compiler), "bin", "tsc");
  execFileSync(process.execPath, [script, "-p", "tsconfig.build.json", "--outDir", folder], { cwd: root });
}

/**
 * Reads declarations as the compiler writes them: one statement after the other, no code. The compiler itself offers no
 * way to ask it, so this knows the few forms that occur and throws at any other.
 */
export class Declarations {
  readonly #folder: string;
  readonly #files = new Map<string, DeclarationFile>();

  constructor(folder: string) {
    this.#folder = folder;
  }

  /** The names that a file exports, in the order of the alphabet, each with the declaration behind it. */
  exportsOf(file: string): ReadonlyMap<string, Declaration> {
    const names = new Map<string, Declaration>();
    const { exported, stars } = this.#read(file);
    for (const star of stars) for (const [name, found] of this.exportsOf(star)) names.set(name, found);
    for (const name of exported.keys()) names.set(name, this.#find({ file, name }));
    return new Map([...names].sort(([a], [b]) => (a < b ? -1 : 1)));
  }

  /** What a declaration names: types, and values by `typeof`. Names of packages and of the language are left out. */
  namedBy(declaration: Declaration): readonly Declaration[] {
    const { declared, imported } = this.#read(declaration.file);
    const found = new Map<string, Declaration>();
    const text = declaration.text.replace(/"[^"]*"/g, '""');
    for (const [, asked, name] of text.matchAll(/(?<![.\w#$])(typeof )?([A-Za-z_$][\w$]*)(?!\??:|[\w$])/g)) {
      if (name === undefined || name === declaration.name) continue;
      const source = declared.has(name) ? { file: declaration.file, name } : imported.get(name);
      if (source === undefined) continue;
      const named = declared.get(name) ?? this.#find(source);
      const isType = named.kind === "class" || named.kind === "interface" || named.kind === "type";
      if (isType || asked !== undefined) found.set(name, named);
    }
    return [...found.values()];
  }

  #find({ file, name }: Source): Declaration {
    const { declared, exported, stars } = this.#read(file);
    const here = declared.get(name);
    if (here !== undefined) return here;
    const from = exported.get(name);
    if (from !== undefined) return this.#find(from);
    for (const star of stars) {
      const found = this.exportsOf(star).get(name);
      if (found !== undefined) return found;
    }
    throw new Error(`${file} does not export ${name}`);
  }

  #read(file: string): DeclarationFile {
    const known = this.#files.get(file);
    if (known !== undefined) return known;
    // A generated table brings its declarations along; the compiler does not copy them.
    const emitted = join(this.#folder, file.replace(/\.ts$/, ".d.ts"));
    const text = readFileSync(
      existsSync(emitted) ? emitted : join(root, file.replace(/\.ts$/, ".d.ts")),
      "utf8",
    );
    const read = readFile(file, text);
    this.#files.set(file, read);
    return read;
  }
}

function readFile(file: string, text: string): DeclarationFile {
  const declared = new Map<string, Declaration>();
  const imported = new Map<string, Source>();
  const exported = new Map<string, Source>();
  const stars: string[] = [];
  const sourceOf = (target: string) =>
    relative(root, join(root, dirname(file), target))
      .split(sep)
      .join("/")
      .replace(/\.js$/, ".ts");
  for (const { statement, doc } of statementsOf(text)) {
    const star = statement.match(/^export (?:type )?\* from "(\.[^"]+)";$/);
    const named = statement.match(/^(import|export) (?:type )?\{(.*)\}(?: from "([^"]+)")?;$/);
    const declaration = statement.match(
      /^(export )?(?:declare )?(?:abstract )?(function|const|class|interface|type) ([A-Za-z_$][\w$]*)/,
    );
    if (star !== null) stars.push(sourceOf(star[1]!));
    else if (named !== null) {
      const [, way, list, target] = named;
      if (target !== undefined && !target.startsWith(".")) continue;
      for (const item of list!.split(",").map((part) => part.trim().replace(/^type /, ""))) {
        if (item === "") continue;
        const [name, alias = name] = item.split(" as ");
        const source = { file: target === undefined ? file : sourceOf(target), name: name! };
        (way === "import" ? imported : exported).set(alias!, source);
      }
    } else if (declaration !== null) {
      const [, isExported, kind, name] = declaration as unknown as [
        string,
        string?,
        Declaration["kind"]?,
        string?,
      ];
      const plain = statement.replace(/^(export )?(declare )?/, "");
      // An overloaded function has one declaration for each form.
      const before = declared.get(name!);
      const whole = before === undefined ? plain : `${before.text} ${plain}`;
      declared.set(name!, { file, name: name!, kind: kind!, text: whole, doc: before?.doc || doc });
      if (isExported !== undefined) exported.set(name!, { file, name: name! });
    } else if (!/^import [^{]* from "(?!\.)|^import "/.test(statement)) {
      throw new Error(`${file}: unknown form of declaration: ${statement.slice(0, 200)}`);
    }
  }
  return { declared, imported, exported, stars };
}

/** The statements of a file, each on one line, with the comment before it. */
function statementsOf(text: string): { readonly statement: string; readonly doc: string }[] {
  const statements: { statement: string; doc: string }[] = [];
  let statement = "";
  let doc = "";
  let depth = 0;
  for (const [token] of text.matchAll(/\/\*[\s\S]*?\*\/|\/\/[^\n]*|"(?:[^"\\]|\\.)*"|`[^`]*`|[\s\S]/g)) {
    if (token.startsWith("/*") || token.startsWith("//")) {
      if (statement.trim() === "" && token.startsWith("/**")) doc = token;
      continue;
    }
    if (token.length === 1 && "([{".includes(token)) depth++;
    if (token.length === 1 && ")]}".includes(token)) depth--;
    statement += token;
    const opened = /^\s*(?:export )?(?:declare )?(?:abstract )?(?:interface|class|enum|namespace)\b/.test(
      statement,
    );
    if (depth === 0 && (token === ";" || (token === "}" && opened))) {
      statements.push({ statement: statement.replace(/\s+/g, " ").trim(), doc });
      statement = "";
      doc = "";
    }
  }
  return statements.filter((each) => each.statement !== ";");
}
