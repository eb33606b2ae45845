/** Why a zip is not believed. */
export type ZipRefusal =
  | "not-a-zip"
  | "too-large"
  | "truncated"
  | "trailing-bytes"
  | "unsafe-name"
  | "duplicate-name"
  | "encrypted"
  | "odd-method"
  | "odd-feature"
  | "not-a-file"
  | "wrong-size"
  | "inconsistent"
  | "overlap"
  | "damaged-file"
  | "empty";

/** What a zip of one sort may look like, and how it is refused. */
export interface ZipRules {
  /** What the zip is in words: "pack". */
  readonly noun: string;
  readonly limits: {
    readonly zipBytes: number;
    readonly files: number;
    readonly fileBytes: number;
    readonly unpackedBytes: number;
    /** Unpacked bytes for each packed one. */
    readonly ratio: number;
  };
  readonly isSafeName: (name: string) => boolean;
  /**
   * Whether members may have what some programs write besides: extra fields, and marks of how hard they were packed
   * (APPNOTE.TXT 4.4.4, bits 1 and 2).
   */
  readonly extras: boolean;
  readonly refuse: (reason: ZipRefusal, message: string, name?: string) => Error;
}
