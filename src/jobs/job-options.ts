/** What every job over many screens takes. */
export interface JobOptions {
  /** Called when a screen is done, with its name. */
  readonly onDone?: (name: string) => void;
  /** Ends the job before the next screen; what is done stays done. The job then throws the signal's reason. */
  readonly signal?: AbortSignal;
}
