import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, sep } from "node:path";
import { describe, expect, it } from "vitest";

/** The pages for developers, and what in them can be checked: names of files, scripts, tests. */
const root = join(import.meta.dirname, "..");
const FOLDERS = ["src", "cli", "schemas", "samples", "tests"];

function walk(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).map((name) =>
    join(folder, name).split(sep).join("/"),
  );
}

const tree = [
  ...FOLDERS.flatMap((folder) => [folder, ...walk(folder)]),
  ...readdirSync(root).filter((name) => !statSync(join(root, name)).isDirectory()),
  ...readdirSync(join(root, ".ci")).map((name) => `.ci/${name}`),
  "dist",
];
const paths = new Set(tree);
const pages = [
  "README.md",
  "DEVELOPERS.md",
  ...tree.filter((path) => /^(src|cli|samples|schemas)\/(.*\/)?README\.md$/.test(path)),
];

const scripts = (JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { scripts: object }).scripts;

/** What stands between backticks, without code blocks. */
function quoted(page: string): string[] {
  const text = readFileSync(join(root, page), "utf8").replace(/```[\s\S]*?```/g, "");
  return [...text.matchAll(/`([^`\n]+)`/g)].map((match) => match[1]!);
}

const NAME = /^[\w.{}*-]+(\/[\w.{}*-]+)*\/?$/;
/** A folder that a run over many screens makes for itself. */
const MADE_AT_RUN_TIME = new Set(["work/"]);
const isFile = (word: string): boolean =>
  !MADE_AT_RUN_TIME.has(word) &&
  NAME.test(word) &&
  /\.(ts|mjs|cjs|md|py)$|^(src|cli|tests|schemas|samples)\/|\/$/.test(word) &&
  !/[<{*]/.test(word);

/** Named from the root or by its last parts, a module also without its ending. */
function exists(word: string): boolean {
  const name = word.replace(/\/$/, "");
  return ["", ".ts"].some((ending) => {
    const wanted = `${name}${ending}`;
    return paths.has(wanted) || tree.some((path) => path.endsWith(`/${wanted}`));
  });
}

describe("the pages for developers", () => {
  it("are there, and the map is a map", () => {
    expect(pages.length).toBeGreaterThan(12);
    expect(readFileSync(join(root, "DEVELOPERS.md")).length).toBeLessThanOrEqual(9000);
  });

  it.each(pages)("%s names only files that exist", (page) => {
    const wrong = quoted(page).filter((word) => isFile(word) && !exists(word));
    expect(wrong, "rename them on the page too").toEqual([]);
  });

  it.each(pages)("%s names only scripts of package.json", (page) => {
    const named = [...readFileSync(join(root, page), "utf8").matchAll(/\bnpm run ([\w:-]+)/g)].map(
      (match) => match[1]!,
    );
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });

  it("name every floor and every room", () => {
    const map = readFileSync(join(root, "DEVELOPERS.md"), "utf8");
    const doors = tree.filter((path) => /^src\/[^/]+\/([^/]+\/)?index\.ts$/.test(path)).map(dirname);
    const floors = new Set(doors.map((room) => room.split("/").slice(0, 2).join("/")));
    const rowOf = (floor: string) => map.split("\n").find((line) => line.startsWith(`| \`${floor}\``)) ?? "";
    const missing = doors.filter((room) => {
      const [, , name] = room.split("/");
      const floor = room.split("/").slice(0, 2).join("/");
      const isRoom = name !== undefined && !doors.includes(floor);
      return rowOf(floor) === "" || (isRoom && !rowOf(floor).includes(`\`${name}\``));
    });
    expect(floors.size).toBeGreaterThan(10);
    expect(missing, "give each a line or a word in the map").toEqual([]);
  });
});
