import {
  type Logbook,
  PartShelf,
  type ReferenceShelf,
  Register,
  referenceShelf,
  withStore,
} from "../medium/index.ts";
import { judgePolicy, type LogbookPolicy } from "./policy.ts";

/** What every judgement of a logbook's entries rests on: read once, then used for many screens. */
export interface StandingGround {
  readonly logbook: Logbook;
  readonly register: Register;
  readonly policy: LogbookPolicy;
  readonly parts: PartShelf;
  readonly references: ReferenceShelf;
}

export function standingGround(logbook: Logbook): StandingGround {
  const register = new Register(logbook.store);
  return {
    logbook,
    register,
    policy: withStore(logbook.store, "", () => judgePolicy(logbook, register)),
    parts: new PartShelf(logbook.store),
    references: referenceShelf(logbook.store),
  };
}
