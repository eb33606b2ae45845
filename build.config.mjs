// Builds dist/: one bundle set with shared chunks, so that every command starts quickly, and declarations.
import { execFileSync } from "node:child_process";
import { cpSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, relative, resolve, sep } from "node:path";
import { build } from "esbuild";

rmSync("dist", { recursive: true, force: true });

// What package.json opens to the outside: "./dist/src/public/report.js" is made of src/public/report.ts.
const { exports } = JSON.parse(readFileSync("package.json", "utf8"));
const doors = Object.values(exports).flatMap(({ default: file }) =>
  file === undefined ? [] : [file.replace(/^\.\/dist\//, "").replace(/\.js$/, ".ts")],
);

const entryPoints = [...doors, "cli/workers/worker.ts", "cli/main.ts", "cli/demo.ts"];

// commander can start other programs as subcommands and loads what that takes at every start; we have no such command.
const noChildProcesses = {
  name: "no-child-processes",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
      /[\\/]node_modules[\\/]commander[\\/]/.test(importer)
        ? { path: "child_process", namespace: "left-out" }
        : undefined,
    );
    onLoad({ filter: /.*/, namespace: "left-out" }, () => ({ contents: "module.exports = {};" }));
  },
};

const namesIn = (list) => list.split(",").flatMap((name) => name.trim() || []);

/** The room of every name of a door: "readEntry" comes from "src/logbook/entries/index.ts". */
function roomsOf(door) {
  const rooms = new Map();
  for (const [, names, room] of readFileSync(door, "utf8").matchAll(/export \{([^}]*)\} from "([^"]+)"/g)) {
    for (const name of namesIn(names)) rooms.set(name, resolve(dirname(door), room));
  }
  return rooms;
}

const roomsByDoor = new Map(doors.map((door) => [resolve(door), roomsOf(door)]));

/** An import in a file, once for each room that its names come from. */
function straightFrom(file, list, door, write) {
  const byRoom = new Map();
  for (const item of namesIn(list).filter((name) => !name.startsWith("type "))) {
    const room = roomsByDoor.get(resolve(dirname(file), door)).get(item.split(/ as |:/)[0]);
    if (room === undefined) throw new Error(`${file}: ${door} has no ${item}`);
    byRoom.set(room, [...(byRoom.get(room) ?? []), item]);
  }
  const pathTo = (room) => relative(dirname(file), room).split(sep).join("/");
  return [...byRoom].map(([room, items]) => write(`{ ${items.join(", ")} }`, `"${pathTo(room)}"`)).join(" ");
}

/*
 * cli/ imports the public doors, which load all of their part. A command needs a room or two of it: what it imports from a
 * door comes straight from the rooms behind it.
 */
function straightToRooms(file, text) {
  const straight = text
    .replace(/^import type [^;]*;$/gm, "")
    .replace(/^import \{([^}]*)\} from "([^"]*\/src\/public\/[^"]*)";$/gm, (_, list, door) =>
      straightFrom(file, list, door, (names, room) => `import ${names} from ${room};`),
    )
    .replace(/const \{([^}]*)\} = await import\(\s*"([^"]*\/src\/public\/[^"]*)",?\s*\);/g, (_, list, door) =>
      straightFrom(file, list, door, (names, room) => `const ${names} = await import(${room});`),
    );
  if (/"[^"]*\/src\/public\//.test(straight)) throw new Error(`${file}: an import of a door in another form`);
  return straight;
}

/*
 * A chunk holds the files that the same entry points reach, and every dynamic import is an entry point: the small files of
 * cli/ would end up in a dozen chunks, each read by itself at every start. So whatever in cli/ is loaded later reaches all
 * of them; when it is loaded, they are there already.
 */
const START_FILES = readdirSync("cli").filter(
  (name) => name.endsWith(".ts") && !/^(main|demo|program)\.ts$/.test(name),
);
const quickStart = {
  name: "quick-start",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]cli[\\/](?:[a-z-]+[\\/])?[a-z-]+\.ts$/ }, ({ path }) => {
      const text = straightToRooms(path, readFileSync(path, "utf8").replaceAll("\r\n", "\n"));
      const isLater = /[\\/]cli[\\/][a-z-]+[\\/][a-z-]+\.ts$/.test(path) && !/[\\/]commands[\\/]/.test(path);
      const imports = isLater ? START_FILES.map((name) => `import "../${name}"; `).join("") : "";
      return { contents: imports + text, loader: "ts" };
    });
  },
};

await build({
  entryPoints,
  plugins: [noChildProcesses, quickStart],
  outdir: "dist",
  outbase: ".",
  bundle: true,
  splitting: true,
  platform: "node",
  target: "node20.19",
  format: "esm",
  chunkNames: "chunks/[name]-[hash]",
  sourcemap: true,
  // Half the text to parse at every start; names stay as they are, for stack traces.
  minifyWhitespace: true,
  minifySyntax: true,
  legalComments: "none",
  // unzipper can read from a storage service through this package; we do not, and do not install it.
  external: ["@aws-sdk/client-s3"],
  // Some dependencies are CommonJS and call require("stream") and the like when bundled as a module.
  banner: {
    js: 'import { createRequire as __createRequire } from "node:module"; const require = __createRequire(import.meta.url);',
  },
});

// Their table, which loads them one by one, ends up in a chunk.
cpSync("src/model/generated/validators", "dist/chunks/validators", { recursive: true });

const tscPackage = createRequire(import.meta.url).resolve("typescript/package.json");
execFileSync(process.execPath, [join(dirname(tscPackage), "bin", "tsc"), "-p", "tsconfig.build.json"], {
  stdio: "inherit",
});
