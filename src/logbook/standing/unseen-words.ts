import { counted } from "../../words/index.ts";
import type { Unseen } from "./standing.ts";

/**
 * What of a screen cannot be seen here, as one line to say; undefined where everything is.
 *
 * @param screen as it is to be named: "lantern-mill / screen-1"
 */
export function unseenWords(screen: string, { records, boundFiles }: Unseen): string | undefined {
  const missing = records.filter(({ isDamaged }) => !isDamaged).length;
  const damaged = records.length - missing;
  const parts = [
    ...(missing > 0
      ? [`${counted(missing, "record")} of ${screen} ${missing === 1 ? "is" : "are"} not here`]
      : []),
    ...(damaged > 0
      ? [`${counted(damaged, "record")} of ${screen} ${damaged === 1 ? "is" : "are"} damaged`]
      : []),
    ...(boundFiles.length > 0
      ? [
          `a bound file of ${screen.split(" / ")[0]} is missing or damaged: any of its screens may have entries that are not here`,
        ]
      : []),
  ];
  if (parts.length === 0) return undefined;
  return `${capital(parts.join("; "))}. Copy what is missing from another copy of the logbook, or run 'boothkeep verify'.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
