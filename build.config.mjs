// Builds dist/: one bundle set with shared chunks (quick start-up, see DEVELOPERS.md "Start-up") and declarations.
import { execFileSync } from "node:child_process";
import { cpSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
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

/*
 * A chunk holds the files that the same entry points reach, and every dynamic import is an entry point: the small files of
 * cli/ would end up in a dozen chunks, each read by itself at every start. So whatever in cli/ is loaded later reaches all
 * of them; when it is loaded, they are there already.
 */
const START_FILES = readdirSync("cli").filter(
  (name) => name.endsWith(".ts") && !/^(main|demo|program)\.ts$/.test(name),
);
const oneStartChunk = {
  name: "one-start-chunk",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]cli[\\/][a-z-]+[\\/][a-z-]+\.ts$/ }, ({ path }) => {
      if (/[\\/]cli[\\/]commands[\\/]/.test(path)) return undefined;
      const imports = START_FILES.map((name) => `import "../${name}";`).join(" ");
      return { contents: `${imports} ${readFileSync(path, "utf8")}`, loader: "ts" };
    });
  },
};

await build({
  entryPoints,
  plugins: [noChildProcesses, oneStartChunk],
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
