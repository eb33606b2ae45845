import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

/**
 * Programs from outside that checks compare with. A contributor's machine may lack them: the checks are then skipped and one
 * line says so. With BOOTHKEEP_ALL_CHECKS=1, as in `.ci/run`, a program that is not here is a failure instead.
 */
const PROGRAMS = {
  scipy: { what: "Python with SciPy and NumPy", try: pythons(["-c", "import scipy, numpy"]) },
  python: { what: "Python 3", try: pythons(["--version"]) },
  pty: { what: "Python 3 with pty", try: pythons(["-c", "import pty"]) },
  chromium: {
    what: "Chromium (CHROMIUM names another place than /usr/bin/chromium)",
    try: [{ command: process.env.CHROMIUM ?? "/usr/bin/chromium" }],
  },
  pdftotext: { what: "pdftotext (poppler-utils)", try: [{ command: "pdftotext", args: ["-v"] }] },
  zbarimg: { what: "zbarimg (zbar-tools)", try: [{ command: "zbarimg", args: ["--version"] }] },
  unzip: { what: "unzip", try: [{ command: "unzip", args: ["-v"] }] },
  openssl: { what: "openssl", try: [{ command: "openssl", args: ["version"] }] },
  gunzip: { what: "gunzip", try: [{ command: "gunzip", args: ["--version"] }] },
  sha256sum: { what: "sha256sum", try: [{ command: "sha256sum", args: ["--version"] }] },
  soffice: { what: "LibreOffice Calc", try: [{ command: "soffice", args: ["--version"] }] },
} as const satisfies Record<string, { readonly what: string; readonly try: readonly Attempt[] }>;

interface Attempt {
  readonly command: string;
  /** Must succeed. Without: the file has to be there. */
  readonly args?: readonly string[];
}

export type Program = keyof typeof PROGRAMS;

/** Debian's own Python may have what the first one on the path lacks. */
function pythons(args: readonly string[]): readonly Attempt[] {
  return ["python3", "/usr/bin/python3", ...(process.platform === "win32" ? ["python"] : [])].map(
    (command) => ({
      command,
      args,
    }),
  );
}

const found = new Map<Program, string | undefined>();

/**
 * The command that starts a program, or undefined where it is not here.
 *
 * @throws Error where it is not here and every check is demanded (BOOTHKEEP_ALL_CHECKS=1).
 */
export function outside(program: Program): string | undefined {
  if (!found.has(program)) {
    const { what, try: attempts } = PROGRAMS[program];
    const works = ({ command, args }: Attempt): boolean =>
      args === undefined ? existsSync(command) : spawnSync(command, args).status === 0;
    const command = attempts.find(works)?.command;
    if (command === undefined) {
      if (process.env.BOOTHKEEP_ALL_CHECKS === "1")
        throw new Error(`${what} is not here, but every check is demanded.`);
      console.log(`${what} is not here: checks against it are skipped.`);
    }
    found.set(program, command);
  }
  return found.get(program);
}

/** The same for code that only runs where the program is here. */
export function requireOutside(program: Program): string {
  const command = outside(program);
  if (command === undefined) throw new Error(`${PROGRAMS[program].what} is not here.`);
  return command;
}
