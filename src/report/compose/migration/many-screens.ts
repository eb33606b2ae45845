import { cautionBlock } from "../../cautions.ts";
import type { ReportDocument } from "../../document.ts";

/** What became of one screen of many. */
export interface ReportedScreenResult {
  readonly name: string;
  readonly state: ScreenState;
  readonly words: string;
  /** True: done by an earlier run. */
  readonly earlier?: boolean;
}

/** How far the migration of a screen is. */
export type ScreenState = "planned" | "differs" | "ruled-out" | "decisions-missing" | "outdated" | "failed";

/** Migrations of many screens to print. */
export interface ReportedScreens {
  readonly results: readonly ReportedScreenResult[];
  /** Decisions files to fill in. */
  readonly written: readonly string[];
  /** Folder of plans and configurations. */
  readonly into: string;
}

const STATE_WORDS: Readonly<Record<ScreenState, string>> = {
  planned: "planned and proven",
  differs: "planned, but differs",
  "ruled-out": "ruled out by decision",
  "decisions-missing": "decisions missing",
  outdated: "there from other input",
  failed: "failed",
};

const STATES = Object.keys(STATE_WORDS) as readonly ScreenState[];

/** Groups of screens that are told one by one. */
const GROUPS_SHOWN = 20;
/** Names in one group. */
const NAMES_SHOWN = 3;

/** What became of many screens: counts, then whatever somebody has to look after, like with like. */
export function manyScreensReport({ results, written, into }: ReportedScreens): ReportDocument {
  const earlier = results.filter((result) => result.earlier === true).length;
  const counts = STATES.flatMap((state) => {
    const count = results.filter((result) => result.state === state).length;
    return count === 0 ? [] : [[STATE_WORDS[state], String(count)] as const];
  });
  const groups = alike(results.filter(({ state }) => state !== "planned"));
  return {
    title: `Migration of ${results.length} screens`,
    blocks: [
      cautionBlock(),
      {
        kind: "facts",
        pairs: [...counts, ...(earlier === 0 ? [] : [["done by an earlier run", `${earlier}`] as const])],
      },
      {
        kind: "list",
        marker: "dot",
        items: groups.slice(0, GROUPS_SHOWN).map(({ names, state, words }) => ({
          lead: namesOf(names),
          text: `${STATE_WORDS[state]}: ${words}`,
        })),
      },
      ...(groups.length > GROUPS_SHOWN
        ? [
            {
              kind: "paragraph" as const,
              text: `and ${groups.length - GROUPS_SHOWN} more; --json tells all of them.`,
            },
          ]
        : []),
      { kind: "paragraph", text: nextWords(results, written, into) },
    ],
  };
}

interface Alike {
  readonly names: readonly string[];
  readonly state: ScreenState;
  readonly words: string;
}

/** Screens of which the same is to be said. */
function alike(results: readonly ReportedScreenResult[]): readonly Alike[] {
  const groups = new Map<string, Alike>();
  for (const { name, state, words } of results) {
    const key = `${state} ${words}`;
    groups.set(key, { state, words, names: [...(groups.get(key)?.names ?? []), name] });
  }
  return [...groups.values()].sort((a, b) => STATES.indexOf(a.state) - STATES.indexOf(b.state));
}

function namesOf(names: readonly string[]): string {
  const more = names.length - NAMES_SHOWN;
  return `${names.slice(0, NAMES_SHOWN).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

function nextWords(
  results: readonly ReportedScreenResult[],
  written: readonly string[],
  into: string,
): string {
  const some = (...states: readonly ScreenState[]) => results.some(({ state }) => states.includes(state));
  return [
    some("planned", "differs") ? `Plans and configurations are in ${into}.` : "",
    some("differs")
      ? "Where the proof differs it is beside the plan (*.proof.txt): read it before anything is loaded."
      : "",
    ...fillInWords(written),
  ]
    .filter((words) => words !== "")
    .join(" ");
}

function fillInWords(written: readonly string[]): readonly string[] {
  const [file, ...others] = written;
  if (file === undefined) return [];
  if (others.length === 0) {
    return [`Next: fill in ${file} and run the same command with --decisions ${file}; what is done stays.`];
  }
  return [
    `Next: fill in ${written.join(", ")}, say in a --classes file which screens get which, and run the same command with it; what is done stays.`,
  ];
}
