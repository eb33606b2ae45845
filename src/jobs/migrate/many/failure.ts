import { BoothkeepError } from "../../../base/errors/index.ts";

/** What went wrong with one screen of many; plain data, since an error loses its class between threads. */
export interface Failure {
  /** Of the error; "defect" where boothkeep itself failed. */
  readonly code: string;
  readonly words: string;
}

/** A screen whose migration failed. */
export interface FailedScreen {
  readonly kind: "failed";
  readonly file: string;
  readonly error: Failure;
}

/** Does something for one screen; whatever goes wrong becomes its result, so that the others go on. */
export async function attempt<Result>(
  file: string,
  work: () => Promise<Result>,
): Promise<Result | FailedScreen> {
  try {
    return await work();
  } catch (error) {
    const failure =
      error instanceof BoothkeepError
        ? { code: error.code, words: knownWords(error, file) }
        : { code: "defect", words: `boothkeep itself failed here (${String(error)}). Please report it.` };
    return { kind: "failed", file, error: failure };
  }
}

function knownWords({ message, next, place }: BoothkeepError, file: string): string {
  const elsewhere = place.file === undefined || place.file === file ? "" : ` (file ${place.file})`;
  return `${message}${elsewhere} ${next}`;
}
