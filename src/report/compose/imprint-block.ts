import type { PrintedImprint } from "../../logbook/imprint/index.ts";
import type { ScanCode } from "../document.ts";

/** Digits of a hash that a person compares by eye. */
const EYE_DIGITS = 16;

/** The code that matches a paper with the settings that it shows; nothing for a paper without one. */
export function imprintBlocks(printed: PrintedImprint | undefined): readonly ScanCode[] {
  if (printed === undefined) return [];
  const { imprint, text, modules } = printed;
  const from = imprint.entry === undefined ? "a file" : `entry ${imprint.entry.number}`;
  return [
    {
      kind: "scan-code",
      caption: `Shows ${from} of ${imprint.siteId}/${imprint.screenId}. To match this paper with a logbook, scan it: boothkeep match-paper LOGBOOK "WORDS".`,
      text,
      modules,
    },
  ];
}

/**
 * What stands at the foot of every page: "lantern-mill/screen-1, entry 12, settings ae4116c347a0de3e", of a paper that
 * belongs to a set ", set 07fb59ca1dde2310" too.
 */
export function imprintFooter(
  printed: PrintedImprint | undefined,
  setSha256?: string,
): { readonly footer?: string } {
  if (printed === undefined) return {};
  const { siteId, screenId, entry, settingsSha256 } = printed.imprint;
  const from = entry === undefined ? "" : `, entry ${entry.number}`;
  return {
    footer: `${siteId}/${screenId}${from}, settings ${settingsSha256.slice(0, EYE_DIGITS)}${setWords(setSha256)}`,
  };
}

function setWords(setSha256: string | undefined): string {
  return setSha256 === undefined ? "" : `, set ${setSha256.slice(0, EYE_DIGITS)}`;
}
