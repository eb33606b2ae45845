import { BoothkeepError, type UnitProfile } from "../src/public/boothkeep.ts";
import type { Context } from "./context.ts";
import { findProfile } from "./profiles.ts";

/** Looks unit profiles up once each. One that is not at hand is told once on standard error. */
export class KnownProfiles {
  readonly #known = new Map<string, UnitProfile | undefined>();
  readonly #folder: string | undefined;
  readonly #context: Context;

  constructor(folder: string | undefined, context: Context) {
    this.#folder = folder;
    this.#context = context;
  }

  async of(id: string, near: string): Promise<UnitProfile | undefined> {
    if (!this.#known.has(id)) {
      try {
        this.#known.set(id, await findProfile(id, { folder: this.#folder, near }, this.#context));
      } catch (error) {
        if (!(error instanceof BoothkeepError) || error.code !== "profile.unknown") throw error;
        this.#known.set(id, undefined);
        this.#context.err(`boothkeep: ${error.message} ${error.next}`);
      }
    }
    return this.#known.get(id);
  }
}
