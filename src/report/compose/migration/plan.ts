import type {
  Counts,
  Outcome,
  PlanDocument,
  PlanItem,
  Question,
  Staging,
  StepName,
} from "../../../model/index.ts";
import { printDb, printDbChange, printHz, printMs, printNumber } from "../../../words/index.ts";
import { cautionBlock } from "../../cautions.ts";
import type { Block, Item, ReportDocument } from "../../document.ts";
import { type ResponsePair, responsePlot } from "../../plot/response-plot.ts";
import { openQuestions } from "./open-questions.ts";
import { physicalCables } from "./physical-cables.ts";

/** The part of a plan that its report tells of. */
export type ReportedPlan = Omit<PlanDocument, "configuration">;

/** Names for the heading of a plan, and how much of it is printed. */
export interface MigrationPlanOptions {
  /** What the units and the screen are called. */
  readonly names: { readonly screen: string; readonly from: string; readonly to: string };
  /** Items told in each part at most; the rest is counted. @defaultValue 12 */
  readonly itemsShown?: number;
  /** Where the largest level at an output rises most; see headroomChange. */
  readonly headroom?:
    | { readonly riseDb: number; readonly levelDb: number; readonly words: string }
    | undefined;
  /** Equalizers before and after, the largest error first. */
  readonly curves?: readonly ResponsePair[];
  /** How many of them are drawn. @defaultValue 8 */
  readonly curvesShown?: number;
}

const OUTCOMES: readonly (readonly [Outcome, string])[] = [
  ["kept", "as before"],
  ["rounded", "on the next value that the unit takes"],
  ["refitted", "EQ by other filters"],
  ["moved", "on another connector, slot or place"],
  ["restaged", "same total from other stages"],
  ["asks", "wait for a decision"],
  ["lost", "left out"],
];

/** A plan for people: how far it is, the cautions, open questions, what is lost, what changes, and with which errors. */
export function migrationPlanReport(
  plan: ReportedPlan,
  { names, headroom, itemsShown = 12, curves = [], curvesShown = 8 }: MigrationPlanOptions,
): ReportDocument {
  const open = plan.questions.filter(({ answer }) => answer === undefined);
  const decided = plan.questions.filter(({ answer }) => answer !== undefined);
  return {
    title: `Migration of ${names.screen}`,
    subtitle: `From ${names.from} to ${names.to}`,
    blocks: [
      { kind: "paragraph", weight: "lead", text: leadWords(open.length) },
      cautionBlock(),
      { kind: "heading", level: 2, text: "What becomes of the settings" },
      countsTable(plan.counts, plan.values),
      ...questionBlocks("To be decided", open),
      ...outcomeBlocks(plan, "lost", "Left out", itemsShown),
      { kind: "heading", level: 2, text: "Cables" },
      cableFacts(plan),
      ...equalizerBlocks(plan, itemsShown),
      ...curves.slice(0, curvesShown).map(responsePlot),
      { kind: "heading", level: 2, text: "Levels and delays" },
      stagingFacts(plan),
      ...headroomBlocks(headroom),
      ...outcomeBlocks(plan, "restaged", "Restaged", itemsShown),
      ...outcomeBlocks(plan, "rounded", "Rounded", itemsShown),
      ...questionBlocks("Decided", decided),
      {
        kind: "paragraph",
        weight: "note",
        text: "The plan does not vouch for itself. Whether the new configuration sounds as the old one did, only the proof says, and then a measurement in the room.",
      },
    ],
  };
}

/** The plan in a few lines: for a terminal, before the report is read. */
export function migrationSummary(
  plan: ReportedPlan,
  { names }: Pick<MigrationPlanOptions, "names">,
): ReportDocument {
  const open = plan.questions.filter(({ answer }) => answer === undefined);
  return {
    title: `Migration of ${names.screen}`,
    subtitle: `From ${names.from} to ${names.to}`,
    blocks: [
      { kind: "paragraph", weight: "lead", text: leadWords(open.length) },
      cautionBlock(),
      countsTable(plan.counts, plan.values),
      cableFacts(plan),
      ...(plan.equalizers.length === 0 ? [] : [equalizerFacts(plan)]),
      stagingFacts(plan),
      ...openQuestions(plan.questions),
    ],
  };
}

function equalizerFacts({ equalizers, effort }: ReportedPlan): Block {
  const count = (method: string) => equalizers.filter((item) => item.method === method).length;
  const worst = [...equalizers].sort((a, b) => b.rmsDb - a.rmsDb)[0]!;
  return {
    kind: "facts",
    pairs: [
      [
        "Equalizers",
        `${count("copied")} copied, ${count("rounded")} on steps, ${count("refitted")} refitted (${effort})`,
      ],
      ...(worst.rmsDb === 0
        ? []
        : [
            [
              "Largest error",
              `rms ${printDb(worst.rmsDb, 2)}, at most ${printDb(worst.maxDb, 2)} at ${printHz(worst.maxAtHz)}: ${worst.words}`,
            ] as const,
          ]),
    ],
  };
}

function leadWords(open: number): string {
  if (open === 0) return "Every question is decided. The proof says whether it will sound the same.";
  const one = open === 1;
  return `${open} ${one ? "question is" : "questions are"} open. Do not load the new configuration before ${one ? "it is" : "they are"} decided.`;
}

function countsTable(counts: Counts, values: number): Block {
  return {
    kind: "table",
    caption: `All ${values} values of the old configuration`,
    rowNames: true,
    columns: [{ header: "Outcome" }, { header: "Values", align: "end" }, { header: "Meaning" }],
    rows: OUTCOMES.filter(([outcome]) => counts[outcome] > 0).map(([outcome, words]) => [
      outcome,
      String(counts[outcome]),
      words,
    ]),
  };
}

function questionBlocks(heading: string, questions: readonly Question[]): readonly Block[] {
  if (questions.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: heading },
    { kind: "list", marker: "dot", items: questions.map(questionItem) },
  ];
}

function questionItem(question: Question): Item {
  const chosen = question.options.find(({ id }) => id === question.answer?.optionId);
  const unanswered = question.options.find(({ id }) => id === question.unanswered.optionId);
  if (question.answer !== undefined && chosen !== undefined) {
    const text = question.answer.text === undefined ? "" : ` '${question.answer.text}'`;
    return {
      lead: question.id,
      text: `${chosen.words}${text}`,
      ...(chosen.weakensProtection === true
        ? { tags: ["protects less than before, accepted"], severity: "warning" as const }
        : {}),
      ...(question.answer.note === undefined ? {} : { notes: [question.answer.note] }),
    };
  }
  return {
    lead: question.id,
    text: question.words,
    severity: unanswered?.id === "mute-output" ? "error" : "warning",
    notes: [
      ...question.options.map(
        ({ id, words, consequence, weakensProtection }) =>
          `${id}: ${words} ${consequence}${weakensProtection === true ? " Protects less than before." : ""}`,
      ),
      ...(question.recommended === undefined
        ? []
        : [`Recommended: ${question.recommended.optionId}, because ${question.recommended.reason}`]),
      `Until it is decided: ${question.unanswered.words}`,
    ],
  };
}

const PART_WORDS: Readonly<Record<StepName, string>> = {
  unit: "Unit",
  sources: "Sources",
  channels: "Program channels",
  outputs: "Outputs",
  presets: "Presets",
  equalizations: "EQ sets",
  "driver-filters": "Driver EQ",
  protection: "Crossovers, limiters, protection",
  levels: "Levels",
  delays: "Delays",
  operation: "Operation",
  automation: "Automation",
  labels: "Names",
  network: "Network",
  calibration: "Calibration",
  notes: "Remarks",
  remainder: "Other",
};

function outcomeBlocks(
  plan: ReportedPlan,
  outcome: Outcome,
  heading: string,
  itemsShown: number,
): readonly Block[] {
  const items = plan.items.filter((item) => item.outcome === outcome);
  if (items.length === 0) return [];
  const parts = [...new Set(items.map(({ step }) => step))];
  return [
    { kind: "heading", level: 2, text: heading },
    ...parts.flatMap((step): readonly Block[] => {
      const own = items.filter((item) => item.step === step);
      return [
        { kind: "heading", level: 3, text: PART_WORDS[step] },
        { kind: "list", marker: "dot", items: told(own).slice(0, itemsShown) },
        ...furtherWords(told(own).length - itemsShown),
      ];
    }),
  ];
}

/** Places that are named where the same is said of many. */
const PLACES_NAMED = 4;

/** Items one by one; those of which the same is said together. */
function told(items: readonly PlanItem[]): readonly Item[] {
  const places = new Map<string, string[]>();
  for (const { words, place } of items) {
    const known = places.get(words);
    if (known === undefined) places.set(words, [place.words]);
    else if (!known.includes(place.words)) known.push(place.words);
  }
  return [...places].map(([text, names]) => ({ lead: someOf(names), text }));
}

function someOf(names: readonly string[]): string {
  const more = names.length - PLACES_NAMED;
  return `${names.slice(0, PLACES_NAMED).join("; ")}${more > 0 ? ` and ${more} more` : ""}`;
}

function furtherWords(count: number): readonly Block[] {
  if (count <= 0) return [];
  const text = `and ${count} more of the same sort; all of them stand in the plan as data.`;
  return [{ kind: "paragraph", weight: "note", text }];
}

function cableFacts(plan: ReportedPlan): Block {
  const cables = physicalCables(plan.cables);
  const moved = cables.filter((cable) => cable.moved && cable.to.length > 0);
  const unplugged = cables.filter(({ to }) => to.length === 0);
  const replugged = cables.filter(
    ({ from, to, moved: elsewhere }) => !elsewhere && to.length > 0 && from[0]?.style !== to[0]?.style,
  );
  return {
    kind: "facts",
    pairs: [
      ["Cables", String(cables.length)],
      ["Go elsewhere", `${moved.length}, the fewest possible; the re-patch sheet lists them`],
      ["Other plug", String(replugged.length)],
      ["Left unplugged", String(unplugged.length)],
    ],
  };
}

function equalizerBlocks(plan: ReportedPlan, itemsShown: number): readonly Block[] {
  const { equalizers } = plan;
  if (equalizers.length === 0) return [];
  const changed = equalizers
    .filter(({ method }) => method !== "copied")
    .sort((a, b) => b.rmsDb - a.rmsDb || Math.abs(b.maxDb) - Math.abs(a.maxDb));
  const copied = equalizers.length - changed.length;
  return [
    { kind: "heading", level: 2, text: "Equalizers" },
    {
      kind: "paragraph",
      text: `${copied} of ${equalizers.length} are copied filter by filter. The others are given below, the largest error first; errors are of the whole response from 40 Hz to 16 kHz. Effort: ${plan.effort}.`,
    },
    ...(changed.length === 0
      ? []
      : [
          {
            kind: "table" as const,
            caption: "Equalizers that changed",
            rowNames: true,
            columns: [
              { header: "Equalizer" },
              { header: "How" },
              { header: "Filters", align: "end" as const },
              { header: "rms", align: "end" as const },
              { header: "Largest", align: "end" as const },
              { header: "at", align: "end" as const },
            ],
            rows: changed
              .slice(0, itemsShown)
              .map(({ words, method, bandsUsed, rmsDb, maxDb, maxAtHz }) => [
                words,
                method,
                String(bandsUsed),
                printDb(rmsDb, 2),
                printDb(maxDb, 2),
                printHz(maxAtHz),
              ]),
          },
          ...furtherWords(changed.length - itemsShown),
        ]),
  ];
}

/** A rise below this is the steps' own. */
const SAME_HEADROOM_DB = 0.5;

function headroomBlocks(headroom: MigrationPlanOptions["headroom"]): readonly Block[] {
  if (headroom === undefined) return [];
  const { riseDb, levelDb, words } = headroom;
  const text =
    riseDb <= SAME_HEADROOM_DB
      ? `Headroom at the outputs is no worse than before (largest change ${printDbChange(riseDb, 2)}).`
      : `Headroom gets worse: ${words} can now reach ${printDbChange(levelDb, 1)} against full scale, ${printDb(riseDb, 1)} more than before, with every source channel at full scale at once.`;
  return [{ kind: "paragraph", text }];
}

function stagingFacts({ levels, delays }: ReportedPlan): Block {
  const words = (staging: Staging, value: number) =>
    staging.unit === "dB" ? printDb(value, 2) : printMs(value, 3);
  const line = (name: keyof Omit<Staging, "unit">) =>
    `${words(levels, levels[name])} and ${words(delays, delays[name])}`;
  return {
    kind: "facts",
    pairs: [
      ["Differences that steps bring in, at most", ""],
      ["between ways", line("betweenWays")],
      ["between channels", line("betweenChannels")],
      ["between presets", line("betweenPresets")],
      ["Common to all paths", `${printNumber(levels.common, 2)} dB and ${printNumber(delays.common, 3)} ms`],
      ["Largest of any path", line("largest")],
    ],
  };
}
