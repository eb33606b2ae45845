import type { PrintedImprint } from "../../logbook/imprint/index.ts";
import type { Caution, ScanCode } from "../document.ts";

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

/** What goes to the foot of every page besides the paper's own code. */
export interface FooterExtras {
  /** SHA-256 of the set that the paper belongs to. */
  readonly setSha256?: string | undefined;
  /** See {@link warningBlocks}: every page says that there are some. */
  readonly warnings?: readonly string[] | undefined;
}

/**
 * What stands at the foot of every page: "lantern-mill/screen-1, entry 12, settings ae4116c347a0de3e", of a paper that
 * belongs to a set ", set 07fb59ca1dde2310" too.
 */
export function imprintFooter(
  printed: PrintedImprint | undefined,
  { setSha256, warnings = [] }: FooterExtras = {},
): { readonly footer?: string } {
  const warned = warnings.length > 0 ? ["READ-BACK DIFFERS: see the first page"] : [];
  if (printed === undefined) return warned.length === 0 ? {} : { footer: warned[0]! };
  const { siteId, screenId, entry, settingsSha256 } = printed.imprint;
  const from = entry === undefined ? "" : `, entry ${entry.number}`;
  const footer = `${siteId}/${screenId}${from}, settings ${settingsSha256.slice(0, EYE_DIGITS)}${setWords(setSha256)}`;
  return { footer: [...warned, footer].join(". ") };
}

function setWords(setSha256: string | undefined): string {
  return setSha256 === undefined ? "" : `, set ${setSha256.slice(0, EYE_DIGITS)}`;
}

/** What has to be read before a paper is used; nothing where there is nothing. */
export function warningBlocks(warnings: readonly string[] = []): readonly Caution[] {
  return warnings.length === 0 ? [] : [{ kind: "caution", title: "Read this first", items: warnings }];
}
