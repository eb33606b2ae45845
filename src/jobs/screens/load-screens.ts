import { BoothkeepError } from "../../base/errors/index.ts";
import { type Logbook, logbookScreens } from "../../logbook/entries/index.ts";
import type { JobOptions } from "../job-options.ts";
import { type FleetScreen, fleetScreenIn } from "./fleet-screen.ts";

/** A screen that could not be read. */
export interface UnreadScreen {
  readonly name: string;
  /** Why, as a sentence. */
  readonly words: string;
  /** False: nothing that holds was ever recorded of it. */
  readonly isDamaged: boolean;
}

/** What became of a screen: its last configuration, or why there is none. */
export type LoadedScreen =
  | { readonly kind: "screen"; readonly screen: FleetScreen }
  | ({ readonly kind: "unread" } & UnreadScreen);

/** Which screens of a logbook are loaded. */
export interface LoadOptions extends JobOptions {
  /** Exactly these, by `LogbookScreen.folder`. @defaultValue all screens of the logbook */
  readonly folders?: readonly string[];
}

/** Screens of a logbook, read one after the other. One that cannot be read does not stop the others. */
export function* loadScreens(
  logbook: Logbook,
  { folders, onDone, signal }: LoadOptions = {},
): Generator<LoadedScreen, void> {
  for (const screen of logbookScreens(logbook, folders === undefined ? {} : { folders })) {
    signal?.throwIfAborted();
    const name = screen.folder;
    yield outcomeOf(name, () => fleetScreenIn(logbook, screen));
    onDone?.(name);
  }
}

function outcomeOf(name: string, read: () => FleetScreen | undefined): LoadedScreen {
  try {
    const screen = read();
    if (screen !== undefined) return { kind: "screen", screen };
    return { kind: "unread", name, words: "It has no entry that holds.", isDamaged: false };
  } catch (error) {
    if (!(error instanceof BoothkeepError)) throw error;
    return { kind: "unread", name, words: error.message, isDamaged: true };
  }
}
