import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readConfiguration, readProfile } from "../../src/model/index.ts";
import { limitedNumbers } from "../../src/profile/index.ts";
import { validateConfiguration } from "../../src/rules/index.ts";

/*
 * Checking configurations: warm in one process, a whole process from start to end beside a bare `node -e 0`, and a
 * folder of 1,000 screens. Needs a build (`npm run build`): what users start is the bundle.
 */
const root = join(import.meta.dirname, "../..");
const cli = join(root, "dist/cli/main.js");
const SCREENS = [
  "lantern-mill/screen-1",
  "lantern-mill/screen-4",
  "copper-heron/screen-1",
  "copper-heron/screen-2",
];
const FLEET = 1000;
const COLD_RUNS = 15;

export async function run(): Promise<unknown> {
  if (!existsSync(cli)) throw new Error("Build first: npm run build");
  const folder = mkdtempSync(join(tmpdir(), "validate-bench-"));
  try {
    return { warm: SCREENS.map(warm), cold: cold(), fleet: fleet(folder) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const screenFile = (name: string) => join(root, "samples/screens", `${name}.json`);

function warm(name: string) {
  const bytes = readFileSync(screenFile(name));
  const { document } = readConfiguration(bytes);
  const profile = readProfile(
    readFileSync(join(root, "samples/profiles", `${document.unit.profileId}.json`)),
  ).document;
  const whole = () => validateConfiguration(readConfiguration(bytes).document, { profile });
  return {
    name,
    bytes: bytes.length,
    values: leavesOf(document),
    limitedNumbers: limitedNumbers(document, profile).length,
    findings: whole().length,
    readMs: median(() => readConfiguration(bytes)),
    rulesMs: median(() => validateConfiguration(document, { profile })),
    wholeMs: median(whole),
  };
}

/** Milliseconds of the middle one of 60 calls, after 20 that are not counted. */
function median(work: () => unknown): number {
  for (let i = 0; i < 20; i += 1) work();
  const times = Array.from({ length: 60 }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return rounded(middle(times));
}

/** Whole processes, the kinds in turn. */
function cold() {
  const file = screenFile("lantern-mill/screen-1");
  const bare: number[] = [];
  const help: number[] = [];
  const checks: number[] = [];
  for (let i = 0; i < COLD_RUNS; i += 1) {
    bare.push(wallMs(["-e", "0"]));
    help.push(wallMs([cli, "validate", "--help"]));
    checks.push(wallMs([cli, "validate", file]));
  }
  const first = firstCallMs();
  return {
    bareNodeMs: rounded(middle(bare)),
    helpMs: rounded(middle(help)),
    validateMs: rounded(middle(checks)),
    firstCallInProcessMs: first,
    validateBesideBareNode: rounded(middle(checks) / middle(bare)),
    withoutTheWorkBesideBareNode: rounded((middle(checks) - first) / middle(bare)),
  };
}

/** Reading and checking once, cold, inside a process that has loaded the code: the work itself. */
function firstCallMs(): number {
  const script = `
    import { readFileSync } from "node:fs";
    const { readConfiguration, readProfile, validateConfiguration } = await import(${JSON.stringify(join(root, "dist/src/public/boothkeep.js"))});
    const start = performance.now();
    const { document } = readConfiguration(readFileSync(${JSON.stringify(screenFile("lantern-mill/screen-1"))}));
    const profile = readProfile(readFileSync(${JSON.stringify(join(root, "samples/profiles/skarn-30.json"))})).document;
    validateConfiguration(document, { profile });
    console.log(performance.now() - start);`;
  const times = Array.from({ length: 5 }, () =>
    Number(execFileSync(process.execPath, ["--input-type=module", "-e", script], { encoding: "utf8" })),
  );
  return rounded(middle(times));
}

function fleet(folder: string) {
  for (let i = 0; i < FLEET; i += 1) {
    const document = JSON.parse(readFileSync(screenFile(SCREENS[i % SCREENS.length]!), "utf8")) as {
      screen: Record<string, unknown>;
      unit: Record<string, unknown>;
      network: { hostname: string; interfaces: { address?: string; gateway?: string }[] };
    };
    document.screen.siteId = `site-${i}`;
    document.unit.serial = `S-${i}`;
    const site = join(folder, `site-${Math.floor(i / 10)}`);
    mkdirSync(site, { recursive: true });
    writeFileSync(join(site, `screen-${i}.json`), JSON.stringify(document));
  }
  const start = performance.now();
  const text = execFileSync(
    process.execPath,
    [cli, "validate", folder, "--profiles", join(root, "samples/profiles"), "--json"],
    { encoding: "utf8", maxBuffer: 2 ** 28 },
  );
  const seconds = (performance.now() - start) / 1000;
  const { documents } = JSON.parse(text) as { documents: { findings: unknown[] }[] };
  return {
    screens: documents.length,
    findings: documents.flatMap(({ findings }) => findings).length,
    seconds: rounded(seconds),
    msEach: rounded((seconds * 1000) / documents.length),
  };
}

function wallMs(args: readonly string[]): number {
  const start = performance.now();
  execFileSync(process.execPath, [...args], { stdio: "ignore" });
  return performance.now() - start;
}

function leavesOf(value: unknown): number {
  return typeof value === "object" && value !== null
    ? Object.values(value).reduce<number>((sum, item) => sum + leavesOf(item), 0)
    : 1;
}

const middle = (times: readonly number[]) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
const rounded = (value: number) => Number(value.toPrecision(3));
