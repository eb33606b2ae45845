import { BoothkeepError } from "../../base/errors/index.ts";

/** What a paper says of itself, so that it can be matched with the settings that it shows. */
export interface Imprint {
  readonly siteId: string;
  readonly screenId: string;
  /** The entry of a logbook that it was printed from; absent where it was printed from a file. */
  readonly entry?: {
    readonly number: number;
    /** The entry's id, or its first digits (at least {@link ENTRY_DIGITS}). */
    readonly id: string;
  };
  /** SHA-256 of the configuration's RFC 8785 text: 64 lower-case hexadecimal digits. */
  readonly settingsSha256: string;
}

/** Digits of an entry's id that stand on paper: 64 bits, beyond any chance of two alike in one logbook. */
export const ENTRY_DIGITS = 16;

const ID = "[A-Za-z0-9][A-Za-z0-9._-]{0,63}";
const PATTERN = new RegExp(
  `^boothkeep paper 1: (${ID})/(${ID})(?: entry ([1-9][0-9]{0,8}) ([0-9a-f]{${ENTRY_DIGITS},64}))? settings ([0-9a-f]{64})$`,
);

/**
 * The imprint as the one line that a code on paper holds, in plain words so that any reader of codes can show it.
 *
 * @example
 * imprintText({ siteId: "lantern-mill", screenId: "screen-1", settingsSha256 });
 * // "boothkeep paper 1: lantern-mill/screen-1 settings 5f0c…"
 */
export function imprintText({ siteId, screenId, entry, settingsSha256 }: Imprint): string {
  const from = entry === undefined ? "" : ` entry ${entry.number} ${entry.id.slice(0, ENTRY_DIGITS)}`;
  return `boothkeep paper 1: ${siteId}/${screenId}${from} settings ${settingsSha256}`;
}

/**
 * The imprint that a line from paper holds; spaces and line ends that a reader put in or round it do not matter.
 * @throws BoothkeepError imprint.unreadable
 */
export function readImprint(text: string): Imprint {
  const line = text.trim().replace(/\s+/g, " ");
  const [, siteId, screenId, number, id, settingsSha256] = PATTERN.exec(line) ?? [];
  if (siteId === undefined || screenId === undefined || settingsSha256 === undefined) {
    throw new BoothkeepError("imprint.unreadable", "These are not the words of a code on our papers.", {
      next: "Scan again, and give all of it in quotation marks: \"boothkeep paper 1: SITE/SCREEN entry … settings …\". Without a scanner: the entry's id stands under the code; 'boothkeep show LOGBOOK ID' finds it.",
    });
  }
  return {
    siteId,
    screenId,
    ...(number === undefined || id === undefined ? {} : { entry: { number: Number(number), id } }),
    settingsSha256,
  };
}
