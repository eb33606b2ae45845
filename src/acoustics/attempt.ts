import { BoothkeepError } from "../base/errors/index.ts";

/** Runs a computation; gives undefined when it failed and somebody was told. */
export type Attempt = <Result>(compute: () => Result) => Result | undefined;

/** Passes errors of bad settings to a listener; without a listener they are thrown. Other errors are always thrown. */
export function attempts(onError: ((error: BoothkeepError) => void) | undefined): Attempt {
  return (compute) => {
    try {
      return compute();
    } catch (error) {
      if (onError === undefined || !(error instanceof BoothkeepError)) throw error;
      onError(error);
      return undefined;
    }
  };
}
