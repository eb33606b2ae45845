import type { Failure } from "./failure.ts";
import type { SettledScreen, Survey } from "./screen-work.ts";

/** How far a screen of many is. */
export type ManyState = "planned" | "differs" | "ruled-out" | "decisions-missing" | "outdated" | "failed";

/** What became of one screen of many. */
export interface ScreenResult {
  readonly file: string;
  /** "lantern-mill.screen-1"; the file's name where it could not be read. */
  readonly name: string;
  readonly state: ManyState;
  readonly words: string;
  /** Ids of open questions, or of those whose answers rule the unit out. */
  readonly questions?: readonly string[];
  /** Code of the error. */
  readonly code?: string;
  /** True: done by an earlier run. */
  readonly earlier?: boolean;
}

/** @param settled what became of the screens that were decided, by their files */
export function screenResult(survey: Survey, settled: ReadonlyMap<string, SettledScreen>): ScreenResult {
  if (survey.kind === "failed") return failedResult(survey.file, survey.file, survey.error);
  const { file, name } = survey.kind === "outdated" ? survey : survey.input;
  switch (survey.kind) {
    case "done":
      return { file, name, state: survey.record.state, words: survey.record.words, earlier: true };
    case "outdated":
      return {
        file,
        name,
        state: "outdated",
        words:
          "an earlier run planned it from other input (configuration, profiles, answers or program). Name another folder, or move its files away and take its line out of work/screens.jsonl.",
      };
    case "asks":
    case "ruled-out": {
      const ids = survey.questions.map(({ id }) => id);
      const [state, lead] =
        survey.kind === "asks" ? (["decisions-missing", "open"] as const) : (["ruled-out", "by"] as const);
      return { file, name, state, words: `${lead}: ${someOf(ids)}`, questions: ids };
    }
    case "decided": {
      const result = settled.get(file)!;
      if (result.kind === "failed") return failedResult(file, name, result.error);
      return { file, name, state: result.state, words: result.words };
    }
  }
}

function failedResult(file: string, name: string, { code, words }: Failure): ScreenResult {
  return { file, name, state: "failed", words, code };
}

const IDS_SHOWN = 3;

function someOf(ids: readonly string[]): string {
  const more = ids.length > IDS_SHOWN ? ` and ${ids.length - IDS_SHOWN} more` : "";
  return `${ids.slice(0, IDS_SHOWN).join(", ")}${more}`;
}
