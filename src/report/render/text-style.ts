import { styleText } from "node:util";
import type { Severity } from "../../base/findings/index.ts";

/** Terminal styles that underline what the words already say. */
export interface Style {
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
  readonly caution: (text: string) => string;
  /** A line of a code: dark on light whatever the terminal's colors are; without styles, in ink without spaces at its end. */
  readonly ink: (text: string) => string;
  readonly severity: (text: string, severity: Severity | undefined) => string;
}

const plain = (text: string): string => text;

export const PLAIN_STYLE: Style = {
  strong: plain,
  faint: plain,
  caution: plain,
  ink: (text) => text.trimEnd(),
  severity: plain,
};

type Format = Parameters<typeof styleText>[0];

// Whether a terminal is there is the caller's question, so the stream is not asked again here.
const styled = (format: Format) => (text: string) => styleText(format, text, { validateStream: false });

const bySeverity: Readonly<Record<Severity, (text: string) => string>> = {
  error: styled(["bold", "inverse"]),
  warning: styled(["bold", "yellow"]),
  advice: styled("bold"),
};

export const TERMINAL_STYLE: Style = {
  strong: styled("bold"),
  faint: styled("dim"),
  caution: styled(["bold", "yellow"]),
  ink: styled(["black", "bgWhiteBright"]),
  severity: (text, severity) => (severity === undefined ? styled("bold")(text) : bySeverity[severity](text)),
};
