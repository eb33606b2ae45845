import { type Configuration, readConfiguration } from "../model/index.ts";

/**
 * An earlier configuration of a screen, from the text that a logbook keeps of it. Its hash was checked and it was valid
 * when it was recorded, so that one of the present schema version is only parsed: that is four times faster, and histories
 * are long. Any other is read with all care.
 *
 * @param present schema version of a configuration that was read with all care
 * @returns undefined where it cannot be read
 */
export function earlierConfiguration(text: string | undefined, present: string): Configuration | undefined {
  if (text === undefined) return undefined;
  try {
    const document = JSON.parse(text) as Configuration;
    return document.schemaVersion === present ? document : readConfiguration(text).document;
  } catch {
    return undefined;
  }
}
