import type { Operation } from "../../../model/index.ts";

/** What is left of the operation without one of its members. */
export function withoutMember<K extends keyof Operation>(operation: Operation, key: K): Omit<Operation, K> {
  const { [key]: _gone, ...rest } = operation;
  return rest;
}
