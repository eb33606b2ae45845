import { ERROR_CATALOGUE, type ErrorCode, EXIT_CODE } from "./catalogue.ts";

/** Where something is wrong: whatever of it is known. */
export interface ErrorPlace {
  /** The file or folder as the user named it. */
  readonly file?: string;
  /** JSON Pointer (RFC 6901) into the document. */
  readonly pointer?: string;
  /** The id of the item (a preset, an output, an entry ...). */
  readonly id?: string;
  /** Line and column (from 1) in a text. */
  readonly line?: number;
  readonly column?: number;
}

/** What an error carries besides its code and its sentence. */
export interface ErrorOptions {
  readonly place?: ErrorPlace;
  /** What to do next, as a full sentence. */
  readonly next: string;
  /** Named numbers and words for scripts. */
  readonly data?: Readonly<Record<string, unknown>>;
  readonly cause?: unknown;
}

/**
 * The one class of error that boothkeep throws on purpose: a stable code, what is wrong, where, and what to do next.
 *
 * @example
 * throw new BoothkeepError("input.not-found", "There is no file 'left.json'.", {
 *   place: { file: "left.json" },
 *   next: "Check the name and the folder.",
 * });
 */
export class BoothkeepError extends Error {
  override readonly name = "BoothkeepError";
  readonly code: ErrorCode;
  readonly place: ErrorPlace;
  readonly next: string;
  readonly data: Readonly<Record<string, unknown>>;

  constructor(code: ErrorCode, message: string, options: ErrorOptions) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.code = code;
    this.place = options.place ?? {};
    this.next = options.next;
    this.data = options.data ?? {};
  }

  /** The process exit code that this error leads to (see {@link EXIT_CODE}). */
  get exitCode(): number {
    return EXIT_CODE[ERROR_CATALOGUE[this.code].exit];
  }

  /** The same error with more of its place known; places further in win. */
  at(place: ErrorPlace): BoothkeepError {
    return new BoothkeepError(this.code, this.message, {
      place: { ...place, ...this.place },
      next: this.next,
      data: this.data,
      cause: this.cause,
    });
  }

  toJSON(): Readonly<Record<string, unknown>> {
    return { code: this.code, message: this.message, place: this.place, next: this.next, data: this.data };
  }
}
