import { BoothkeepError } from "../../base/errors/index.ts";

/** Says with an error of the answers which file they are in. */
export function namingAnswers<Result>(file: string | undefined, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    const ofAnswers = error instanceof BoothkeepError && error.code.startsWith("decisions.");
    throw ofAnswers && file !== undefined ? error.at({ file }) : error;
  }
}
