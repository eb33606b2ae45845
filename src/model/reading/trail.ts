import { pointer } from "../../base/findings/index.ts";

/**
 * The way to a place in a document, as a chain of names and positions. Walks over every value of a document carry one
 * instead of a list of keys: a list would be copied at each of several thousand places, and nearly none is ever named.
 */
export interface Trail {
  readonly parent: Trail | undefined;
  readonly key: string | number;
}

/** The JSON Pointer (RFC 6901) of the place that a trail leads to, or of the member `more` below it. */
export function trailPointer(trail: Trail | undefined, ...more: readonly (string | number)[]): string {
  const keys: (string | number)[] = [];
  for (let step = trail; step !== undefined; step = step.parent) keys.push(step.key);
  return pointer(...keys.reverse(), ...more);
}
