import { resolve } from "node:path";
import { BoothkeepError } from "../src/public/boothkeep.ts";
import type { FleetPlace, FleetScreen } from "../src/public/fleet.ts";
import { type CheckInput, checkInputs } from "./check-inputs.ts";
import type { Context } from "./context.ts";
import { isLogbook } from "./is-logbook.ts";
import { openLogbookFolder } from "./restorable-entry.ts";

export interface PlacedScreen extends FleetScreen {
  /** The file or folder beside which unit profiles are looked for. */
  readonly near: string;
}

/**
 * The screens behind what a user names: documents, packs, folders, logbooks with the latest entry of each screen.
 * @throws BoothkeepError input.*, pack.*, logbook.*
 */
export async function fleetPlaces(
  files: readonly string[],
  context: Context,
): Promise<readonly FleetPlace<PlacedScreen>[]> {
  const places: FleetPlace<PlacedScreen>[] = [];
  for (const file of files) {
    if (isLogbook(resolve(context.cwd, file))) places.push(...(await logbookPlaces(file, context)));
    else {
      for await (const input of checkInputs(file, context)) {
        places.push({ where: input.name, read: () => documentScreen(input) });
      }
    }
  }
  return places;
}

/** The screen of a document; undefined for a document of another kind. */
export async function documentScreen({
  name,
  content,
  near,
  found,
}: CheckInput): Promise<PlacedScreen | undefined> {
  const { inspectDocument } = await import("../src/public/model.ts");
  const { readConfiguration } = await import("../src/public/boothkeep.ts");
  const { fleetScreen } = await import("../src/public/fleet.ts");
  try {
    if (inspectDocument(content, { file: name }).kind !== "boothkeep.configuration") return undefined;
  } catch (error) {
    // In a folder, a JSON file that is none of ours is nobody's mistake.
    if (found && error instanceof BoothkeepError && error.code === "document.wrong-kind") return undefined;
    throw error;
  }
  return { ...fleetScreen(readConfiguration(content, { file: name }).document), near };
}

async function logbookPlaces(folder: string, context: Context): Promise<readonly FleetPlace<PlacedScreen>[]> {
  const { logbookScreens } = await import("../src/public/logbook.ts");
  const { fleetScreenIn } = await import("../src/public/fleet.ts");
  const logbook = await openLogbookFolder(folder, context);
  return [...logbookScreens(logbook)].map((screen) => ({
    where: `${folder} ${screen.folder}`,
    read: async () => {
      const own = inFile(folder, () => fleetScreenIn(logbook, screen));
      if (own === undefined)
        context.err(`boothkeep: ${screen.folder} is left out: it has no entry that holds.`);
      return own && { ...own, near: folder };
    },
  }));
}

/** An error about a document says in which file it is. */
function inFile<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof BoothkeepError ? error.at({ file }) : error;
  }
}
