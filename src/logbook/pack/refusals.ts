import { BoothkeepError, type ErrorCode } from "../../base/errors/index.ts";

/** Why a pack is not believed; a code of the error catalogue without "pack." */
export type PackRefusal = Extract<ErrorCode, `pack.${string}`> extends `pack.${infer Name}` ? Name : never;

const ANOTHER_COPY = "Do not use this pack. Take another copy, or make a new one from the logbook.";

/** A pack that must not be believed, with the reason in words. */
export function refusal(reason: PackRefusal, message: string, name?: string): BoothkeepError {
  return new BoothkeepError(`pack.${reason}`, message, {
    ...(name === undefined ? {} : { place: { id: name } }),
    next: ANOTHER_COPY,
    data: { reason },
  });
}
