import { fieldHeading, plainHeading, withoutUnit } from "../headings.ts";

/** Heads the column of frequencies. */
export const FREQUENCY_HEADING = "Frequency (Hz)";

/** Names the row of C-weighted levels. */
export const LEVEL_ROW = fieldHeading("calibration.channels[].levelDbC");

/** Names the row of the LFE's gains in its band. */
export const IN_BAND_ROW = fieldHeading("calibration.channels[].inBandGainDb");

/** Headings of a table of microphone positions. */
export const POSITION_HEADINGS = {
  id: fieldHeading("calibration.microphonePositions[].id"),
  xM: fieldHeading("calibration.microphonePositions[].xM"),
  yM: fieldHeading("calibration.microphonePositions[].yM"),
  zM: fieldHeading("calibration.microphonePositions[].zM"),
} as const;

/** What a column of measured levels is about: "L", or "L at p1" for one microphone position; "(dB)" may follow. */
export function measuredColumn(heading: string): {
  readonly channelId: string;
  readonly positionId?: string;
} {
  const bare = heading.trim().replace(/(?<!\s)\s*\(dB(?: SPL)?\)$/i, "");
  const at = /(?<!\s)\s+at\s+(\S+)$/i.exec(bare);
  return at === null ? { channelId: bare } : { channelId: bare.slice(0, at.index), positionId: at[1]! };
}

/** Whether a heading, or the name of a row, is the one that is meant; a unit may be left out. */
export function isHeading(text: string, heading: string): boolean {
  const bare = withoutUnit(heading);
  return [heading, bare].map(plainHeading).includes(plainHeading(text));
}
