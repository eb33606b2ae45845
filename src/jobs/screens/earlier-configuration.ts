import { type Configuration, readConfiguration } from "../../model/index.ts";

/**
 * An earlier configuration of a screen, from what a logbook keeps of it. Its hash was checked and it was valid when it was
 * recorded, so that one of the present schema version is taken as it was parsed: histories are long. Any other is read
 * with all care.
 *
 * @param present a configuration that was read with all care, of the present schema version
 * @returns undefined where it cannot be read
 */
export function earlierConfiguration(
  parsed: Readonly<Record<string, unknown>> | undefined,
  text: () => string | undefined,
  present: Configuration,
): Configuration | undefined {
  if (parsed === undefined) return undefined;
  if (parsed.schemaVersion === present.schemaVersion) return parsed as unknown as Configuration;
  const own = text();
  try {
    return own === undefined ? undefined : readConfiguration(own).document;
  } catch {
    return undefined;
  }
}
