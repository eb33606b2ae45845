import type { Command } from "commander";
import { type Configuration, EXIT_CODE, type Logbook } from "../src/public/boothkeep.ts";
import type { ToBeLoaded } from "../src/public/logbook.ts";
import { jsonText } from "../src/public/report.ts";
import type { Context } from "./context.ts";
import { atOption, KEY_OPTION, localDateTime, signingKey } from "./logbook-options.ts";
import { findProfile, PROFILES_OPTION } from "./profiles.ts";

/** Options of every command that confirms what was loaded. */
export interface ConfirmOptions {
  readonly by: string;
  readonly notes?: string;
  readonly key?: string;
  readonly at?: string;
  readonly profiles?: string;
  readonly json?: boolean;
}

export function addConfirmOptions(command: Command): Command {
  return command
    .requiredOption("--by <who>", "person, team or role that loaded the unit")
    .option("--notes <text>", "remarks to record")
    .option(...KEY_OPTION)
    .addOption(atOption())
    .option(...PROFILES_OPTION)
    .option("--json", "print one JSON document");
}

/** What was read back, and the logbook that is to record it. */
export interface ReadBack {
  readonly configuration: Configuration;
  readonly logbook: Logbook;
  /** Folder of the logbook. */
  readonly folder: string;
}

/** Compares, records, says both; exits with 1 where the unit holds something else. */
export async function confirmAndSay(
  { configuration, logbook, folder }: ReadBack,
  toBeLoaded: ToBeLoaded,
  options: ConfirmOptions,
  context: Context,
): Promise<void> {
  const { confirmLoading } = await import("../src/public/logbook.ts");
  const search = { folder: options.profiles, near: folder };
  const profile = await findProfile(configuration.unit.profileId, search, context);
  const { confirmation, recorded } = confirmLoading(logbook, configuration, toBeLoaded, {
    profile,
    recordedAt: options.at ?? localDateTime(context.now()),
    recordedBy: options.by,
    ...(options.notes !== undefined && { notes: options.notes }),
    // Read in any case: a key that cannot be used is told before the unit is driven to again.
    ...signingKey(options.key, context),
  });
  if (options.json === true) {
    context.out(
      jsonText({
        confirmation,
        recorded: recorded === undefined ? null : { id: recorded.id, entry: recorded.entry },
        findings: recorded?.findings ?? [],
      }),
    );
  } else {
    const { confirmationReport } = await import("../src/public/report.ts");
    const { renderText } = await import("../src/public/boothkeep.ts");
    const { holdsForFirmware } = await import("../src/public/profile.ts");
    const { columns, color } = context;
    const outside = !holdsForFirmware(profile, configuration.unit.firmware);
    const report = confirmationReport(confirmation, outside ? { firmwareRange: profile.firmwareRange } : {});
    context.out(renderText(report, { columns, color }));
    const signed = options.key === undefined ? "" : ", signed";
    const { applied } = toBeLoaded;
    context.out(
      recorded === undefined
        ? "\nNothing was recorded: the unit holds something else than was proposed."
        : applied === undefined
          ? `\nRecorded as entry ${recorded.entry.number}, after swap${signed}\n(${recorded.id})`
          : `\nRecorded as entry ${recorded.entry.number}${signed}: follows ${applied.standard.id} ${applied.standard.version}.`,
    );
  }
  if (confirmation.verdict === "differs") context.exit(EXIT_CODE.found);
}
