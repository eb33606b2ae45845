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
      {
        words: "What was found is kept too, as it was found.",
        command: ["record", "logbook", "as-found.json", "--reason", "as-found", ...TEAM],
        expect: 0,
      },
    ],
  },
  {
    title: "The unit fails and another model replaces it",
    steps: [
      {
        words:
          "The unit is dead. The last settings as left that can be trusted come out of the logbook; the sheet would serve a unit of the same model.",
        command: ["restore", "logbook", ...SCREEN, "--out", "last-good.json"],
        expect: 0,
      },
      {
        words:
          "There is only a unit of another model. The settings are expressed for it; what needed a decision stands in the decisions file.",
        command: [
          ...[
            "migrate",
            "last-good.json",
            "--to",
            "profiles/whimbrel-32.json",
            "--decisions",
            "decisions.json",
          ],
          ...["--out", "for-the-new-unit.json", "--plan", "plan.json", "--sheets", "papers"],
        ],
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
        words: "It is recorded together with the plan, which says what it was made from.",
        command: [
          ...["record", "logbook", "for-the-new-unit.json", "--reason", "after-swap", ...TEAM],
          ...["--attach", "plan.json"],
        ],
        expect: 0,
      },
      {
        words:
          "It is loaded and read back. No unit is here: the file itself stands for what the unit gives back.",
        command: [
          ...["confirm", "logbook", "for-the-new-unit.json", "--intended", "for-the-new-unit.json"],
          ...[...SCREEN, ...TEAM],
        ],
        expect: 0,
      },
      { words: "The screen's history so far:", command: ["history", "logbook", ...SCREEN], expect: 0 },
      {
        words: "The booth gets a pack that it can open without this tool.",
        command: ["pack", "logbook", ...SCREEN, "--previous", "2", "--out", "handover.zip"],
        expect: 0,
      },
      {
        words: "The pack is read back.",
        command: ["unpack", "handover.zip", "--out", "from-the-pack"],
        expect: 0,
      },
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
  outer.out(`\n\nDone in ${seconds} s. To look at: the papers (report, re-patch sheet, entry
sheet, proof) in
${join(folder, "papers")}
and what the booth keeps in
${join(folder, "handover.zip")}`);
}

/** A command as a person would type it, continued on further lines where it is long: an option stays with its value. */
function commandLine(command: readonly string[], columns: number): string {
  const parts: string[] = [];
  for (const word of command) {
    const typed = word.includes(" ") ? `"${word}"` : word;
    const isValue = parts.at(-1)?.startsWith("--") === true && !parts.at(-1)!.includes(" ");
    if (isValue) parts[parts.length - 1] += ` ${typed}`;
    else parts.push(typed);
  }
  const lines = ["> boothkeep"];
  for (const part of parts) {
    const line = lines[lines.length - 1]!;
    if (line.length + part.length + 3 <= columns) lines[lines.length - 1] = `${line} ${part}`;
    else lines.splice(-1, 1, `${line} \\`, `    ${part}`);
  }
  return lines.join("\n");
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
  if (step.words !== "") outer.out(`\n${wrap(step.words, outer.columns, "")}`);
  outer.out(`\n${commandLine(step.command, outer.columns)}\n`);
  await run(step.command, context);
  if (code === step.expect) return true;
  outer.err(`\nThe demo stops: this step ended with exit code ${code}, ${step.expect} was expected.`);
  outer.exit(1);
  return false;
}

await main();
