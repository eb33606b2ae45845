import { existsSync, readFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import type { Decisions, Question } from "../../src/model/index.ts";
import type { Context } from "../context.ts";
import { readDocumentFile } from "../documents.ts";
import { writeNew } from "../files.ts";
import type { AnswersFor, FleetGround, ScreenInput, Survey } from "./fleet-work.ts";
import { jsonText } from "./screen.ts";

/** Screens that get the same answers, and what they still ask. */
interface Asking {
  readonly answers: AnswersFor;
  readonly input: ScreenInput;
  /** Each question with how many of the screens ask it. */
  readonly questions: Map<string, { readonly question: Question; count: number }>;
  screens: number;
}

/**
 * One decisions file to fill in for all screens that get the same answers. A file that is there already is left alone:
 * somebody may be at work on it.
 *
 * @returns the files, also those that were there with just this content
 */
export async function writeOpenQuestions(
  surveys: readonly Survey[],
  ground: FleetGround,
  context: Context,
): Promise<readonly string[]> {
  const written: string[] = [];
  const groups = groupsOf(surveys);
  const units = new Set(groups.map(({ input }) => input.fromProfileId));
  for (const asking of groups) {
    const { decisionsToFillIn } = await import("../../src/migrate/plan/index.ts");
    const { answers, input, questions, screens } = asking;
    const earlier =
      answers.file === undefined
        ? undefined
        : await readDocumentFile<Decisions>(answers.file, "boothkeep.decisions", context);
    const onSome = [...questions.values()].filter(({ count }) => count < screens);
    const plan = {
      from: { profileId: input.fromProfileId },
      to: { profileId: ground.to.id },
      effort: earlier?.effort ?? ("thorough" as const),
      questions: [...questions.values()].map(({ question }) => question),
    };
    const toFillIn = decisionsToFillIn(plan, {
      earlier,
      onSome: new Set(onSome.map(({ question }) => question.id)),
      asRecommended: ground.recommended,
    });
    const stem = `${stemOf(answers)}${units.size > 1 ? `.${input.fromProfileId}` : ""}`;
    written.push(writeBeside(ground.into, stem, jsonText(toFillIn), context.cwd));
  }
  return written;
}

function groupsOf(surveys: readonly Survey[]): readonly Asking[] {
  const groups = new Map<string, Asking>();
  for (const survey of surveys) {
    if (survey.kind !== "asks") continue;
    const { answers, input } = survey;
    const key = JSON.stringify([answers.name, answers.file, input.fromProfileId]);
    const group = groups.get(key) ?? { answers, input, questions: new Map(), screens: 0 };
    group.screens += 1;
    for (const question of survey.questions) {
      const known = group.questions.get(question.id);
      if (known === undefined) group.questions.set(question.id, { question, count: 1 });
      else known.count += 1;
    }
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** "large" for the class "large", "house" for house.json and what was made from it, "all" without answers. */
function stemOf({ name, file }: AnswersFor): string {
  const stem = name ?? (file === undefined ? "all" : basename(file).replace(/\.json$/i, ""));
  return stem
    .replace(/\.decisions$/i, "")
    .replace(/\.open(-\d+)?$/i, "")
    .replace(/[^A-Za-z0-9._-]+/g, "-");
}

function writeBeside(folder: string, stem: string, text: string, cwd: string): string {
  for (let number = 1; ; number += 1) {
    const file = join(folder, `${stem}.open${number === 1 ? "" : `-${number}`}.decisions.json`);
    const path = resolve(cwd, file);
    if (!existsSync(path)) {
      writeNew(file, text, cwd);
      return file;
    }
    if (readFileSync(path, "utf8") === text) return file;
  }
}
