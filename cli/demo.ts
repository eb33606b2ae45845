#!/usr/bin/env node
/**
 * Plays the main job on the samples: a screen as left, a later visit, a failed unit, its settings moved onto another
 * model. Every step is the command that a person would type; nothing of the output is prepared.
 */
import { cpSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Context, processContext } from "./context.ts";
import { run } from "./program.ts";
import { wrap } from "./wrap.ts";

interface Step {
  /** What happens in the booth, in words. */
  readonly words: string;
  readonly command: readonly string[];
  /** Exit code that the step must end with. */
  readonly expect: number;
}

const SAMPLES = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "samples");

/** What of the samples the story needs, and under which names it lies in the demo's folder. */
const FILES: readonly (readonly [from: string, to: string])[] = [
  ["profiles", "profiles"],
  ["screens/lantern-mill/screen-1.json", "as-left.json"],
  ["visits/lantern-mill/screen-1-autumn.json", "as-found.json"],
  ["decisions/lantern-mill-1-onto-whimbrel-32.json", "decisions.json"],
];

const SCREEN = ["--site", "lantern-mill", "--screen", "screen-1"] as const;
const TEAM = ["--by", "Alignment team"] as const;

interface Chapter {
  readonly title: string;
  readonly steps: readonly Step[];
}

const STORY: readonly Chapter[] = [
  {
    title: "The screen as left",
    steps: [
      {
        words: "Lantern Mill, Screen 1 is aligned. Is what it holds valid for its unit?",
        command: ["validate", "as-left.json"],
        expect: 0,
      },
      {
        words: "It is. It goes into the logbook.",
        command: ["begin", "logbook"],
        expect: 0,
      },
      {
        words: "",
        command: ["record", "logbook", "as-left.json", "--reason", "as-left", ...TEAM],
        expect: 0,
      },
    ],
  },
  {
    title: "A later visit",
    steps: [
      {
        words: "The unit is read out again. What is different from what was left?",
        command: ["compare", "as-left.json", "as-found.json"],
        expect: 1,
      },
    ],
  },
  {
    title: "The unit fails and another model replaces it",
    steps: [
      {
        words: "The last good entry comes out of the logbook, and is expressed for the new unit.",
        command: ["restore", "logbook", ...SCREEN, "--out", "last-good.json"],
        expect: 0,
      },
      {
        words: "",
        command: ["migrate", "last-good.json", "--to", "whimbrel-32", "--decisions", "decisions.json"].concat(
          ["--out", "for-the-new-unit.json", "--plan", "plan.json", "--sheets", "papers"],
        ),
        expect: 0,
      },
    ],
  },
  {
    title: "The new unit is loaded, recorded, and the booth gets its pack",
    steps: [
      {
        words: "Valid for the new unit?",
        command: ["validate", "for-the-new-unit.json"],
        expect: 0,
      },
      {
        words: "",
        command: ["record", "logbook", "for-the-new-unit.json", "--reason", "after-swap", ...TEAM],
        expect: 0,
      },
      { words: "", command: ["history", "logbook", ...SCREEN], expect: 0 },
      { words: "", command: ["pack", "logbook", ...SCREEN, "--out", "handover.zip"], expect: 0 },
      { words: "", command: ["unpack", "handover.zip", "--out", "from-the-pack"], expect: 0 },
      {
        words: "Is what comes out of the pack what went into the unit?",
        command: ["compare", "for-the-new-unit.json", "from-the-pack/configuration.json"],
        expect: 0,
      },
    ],
  },
];

async function main(): Promise<void> {
  const started = performance.now();
  const folder = mkdtempSync(join(tmpdir(), "boothkeep-demo-"));
  for (const [from, to] of FILES) cpSync(join(SAMPLES, from), join(folder, to), { recursive: true });
  const outer = processContext();
  outer.out(`boothkeep, the main job on invented data. Everything is written to and kept in\n${folder}`);
  for (const [index, chapter] of STORY.entries()) {
    outer.out(`\n\n${index + 1}. ${chapter.title}`);
    for (const step of chapter.steps) {
      if (!(await play(step, folder, outer))) return;
    }
  }
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  outer.out(`\n\nDone in ${seconds} s. To look at: the papers (report, re-patch sheet, entry sheet, proof) in
${join(folder, "papers")}
and what the booth keeps in
${join(folder, "handover.zip")}`);
}

/** Plays one step; says false and ends with exit code 1 when it went otherwise than it should. */
async function play(step: Step, folder: string, outer: Context): Promise<boolean> {
  let code = 0;
  const context: Context = {
    ...outer,
    cwd: folder,
    exit: (said) => {
      code = Math.max(code, said);
    },
  };
  if (step.words !== "") outer.out(`\n${wrap(step.words, outer.columns)}`);
  outer.out(`\n> boothkeep ${step.command.join(" ")}\n`);
  await run(step.command, context);
  if (code === step.expect) return true;
  outer.err(`\nThe demo stops: this step ended with exit code ${code}, ${step.expect} was expected.`);
  outer.exit(1);
  return false;
}

await main();
