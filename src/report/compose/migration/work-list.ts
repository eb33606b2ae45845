import type { FittedItem, FittingQuestion, Proposal, ProposedStep } from "../../../model/index.ts";
import { printSigned, printValue } from "../../../words/index.ts";
import { CAUTION_STEPS, cautionBlock } from "../../cautions.ts";
import type { Block, Item, ReportDocument } from "../../document.ts";

/** Files that a work list names. */
export interface WorkListOptions {
  /** File to load into a screen's unit, by "site/screen". */
  readonly files?: ReadonlyMap<string, string>;
}

/** What a person does at one site to bring its screens to a standard: screen by screen, with boxes to tick. */
export function workList(proposals: readonly Proposal[], { files }: WorkListOptions = {}): ReportDocument {
  const [first] = proposals;
  const standard = first?.standard;
  const proposed = proposals.filter(({ outcome }) => outcome === "proposed");
  return {
    title: `Work list: ${first?.screen.siteName ?? "no screens"}`,
    ...(standard !== undefined && {
      subtitle: `Standard ${standard.title}, ${standard.id} ${standard.version}; screens to load: ${proposed.length} of ${proposals.length}`,
    }),
    blocks: [
      ...(proposed.length > 0 ? [cautionBlock()] : []),
      ...proposals.flatMap((proposal) => screenBlocks(proposal, files)),
    ],
  };
}

const OUTCOME: Readonly<Record<Proposal["outcome"], string>> = {
  follows: "Nothing to load.",
  proposed: "To load.",
  open: "Waits for decisions; nothing to load yet.",
};

function screenBlocks(proposal: Proposal, files: WorkListOptions["files"]): readonly Block[] {
  const { screen, outcome, steps, fitting, questions, findings, followed } = proposal;
  const file = files?.get(`${screen.siteId}/${screen.screenId}`);
  const of = (...outcomes: readonly ProposedStep["outcome"][]) =>
    steps.filter((step) => outcomes.includes(step.outcome));
  return [
    { kind: "heading", level: 2, text: screen.screenName },
    {
      kind: "facts",
      pairs: [
        ["Unit", `${screen.profileId}, serial ${screen.serial}`],
        ["Followed until now", followed ?? "no version on record"],
        ["This time", OUTCOME[outcome]],
      ],
    },
    ...part(
      outcome === "open" ? "Would change" : "Changes",
      of("taken", "rounded", "nearest").map(changeItem),
    ),
    ...part("On this unit", fittedItems(fitting)),
    ...soundBlocks(proposal),
    ...part(
      "Stays as the screen has it",
      of("kept", "kept-by-decision")
        .filter(({ place }) => !fitting.some((item) => item.place === place))
        .map(stayItem),
    ),
    ...part("To be decided", [
      ...of("asks").map(stayItem),
      ...questions.filter(({ chosen }) => chosen === null).map(questionItem),
    ]),
    ...part(
      "Found by the rule book",
      findings.map(({ place, words, severity }) => ({
        lead: place,
        text: words,
        severity,
        tags: [severity],
      })),
    ),
    ...part(
      "To do",
      [
        ...of("by-hand").map(
          (step): Item => ({ lead: `${step.words}, ${step.label}`, text: `${step.why} ${sides(step)}` }),
        ),
        ...(outcome === "proposed"
          ? fitting.flatMap(({ todo }) => (todo === undefined ? [] : [{ text: todo }]))
          : []),
        ...(outcome === "proposed" ? loading(file) : []),
        ...(outcome === "follows" ? READ_BACK : []),
      ],
      "box",
    ),
  ];
}

function loading(file: string | undefined): readonly Item[] {
  return [
    {
      text: "Read the unit out first and compare it with the last record ('boothkeep compare'): loading takes back whatever was changed since. Where something was, record it and propose again.",
    },
    { text: CAUTION_STEPS.loading(file ?? "the proposed configuration") },
    { text: CAUTION_STEPS.listenLow },
    ...READ_BACK,
  ];
}

const READ_BACK: readonly Item[] = [
  { text: "Read the unit back into a file." },
  {
    text: "Confirm with 'boothkeep standard confirm'. Only then does the screen count as following the standard.",
  },
];

function part(title: string, items: readonly Item[], marker: "dot" | "box" = "dot"): readonly Block[] {
  if (items.length === 0) return [];
  return [
    { kind: "heading", level: 3, text: title },
    { kind: "list", marker, items },
  ];
}

function changeItem(step: ProposedStep): Item {
  const { words, label, screen, result, outcome, why, reason } = step;
  const text =
    screen === null
      ? result !== null && typeof result === "object"
        ? "is new."
        : `becomes ${print(step, result)}; nothing stood there.`
      : result === null
        ? "goes."
        : sentence(`becomes ${print(step, result)}; was ${print(step, screen)}`);
  return {
    lead: `${words}, ${label}`,
    text,
    notes: [
      ...(outcome === "taken" ? [] : [why]),
      ...(reason === undefined ? [] : [`Held because: ${reason}`]),
    ],
  };
}

const FITTED: Readonly<Record<FittedItem["outcome"], string>> = {
  rounded: "rounded",
  refitted: "other filters",
  moved: "moved",
  "left-out": "left out",
  asks: "open",
};

/** What became of places on the unit; the same on several places once. */
function fittedItems(fitting: readonly FittedItem[]): readonly Item[] {
  const alike = new Map<string, readonly [FittedItem, ...FittedItem[]]>();
  for (const item of fitting) {
    if (item.outcome === "asks") continue;
    const key = JSON.stringify([item.outcome, item.text]);
    alike.set(key, [...(alike.get(key) ?? []), item] as unknown as readonly [FittedItem, ...FittedItem[]]);
  }
  return [...alike.values()].map((items) => ({
    lead: items.map(({ words }) => words).join("; "),
    text: items[0].text,
    tags: [FITTED[items[0].outcome]],
  }));
}

function questionItem({ words, question, options, recommended, unfit, place }: FittingQuestion): Item {
  return {
    lead: words,
    text: question,
    notes: [
      ...(unfit === undefined ? [] : [unfit]),
      ...options.map(
        (option) =>
          `${option.id}: ${option.words} ${option.consequence}${option.id === recommended ? " Loses least." : ""}`,
      ),
      `In the decisions file: ${place}`,
    ],
  };
}

function stayItem(step: ProposedStep): Item {
  return { lead: `${step.words}, ${step.label}`, text: sides(step), notes: [step.why] };
}

function sides(step: ProposedStep): string {
  const standard =
    step.hold === "within"
      ? `${print(step, step.min)} to ${print(step, step.max)}`
      : print(step, step.standard);
  return sentence(`Screen: ${print(step, step.screen)}; standard: ${standard}`);
}

/** A text that ends with one full stop. */
function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}

function print({ field }: ProposedStep, value: unknown): string {
  if (value === null || value === undefined) return "nothing there";
  if (typeof value === "object") return "there";
  return printValue(field, value);
}

function soundBlocks({ sound }: Proposal): readonly Block[] {
  if (sound === null) return [];
  const text =
    sound.verdict === "equal"
      ? `All ${sound.paths} paths sound as before.`
      : `${sound.equal} of ${sound.paths} paths sound as before; ${sound.audible} change, ${sound.new} are new, ${sound.missing} fall silent.`;
  const items = sound.groups.map(({ words, verdict, paths, levelDb, maxDb, delayMs }) => ({
    lead: words,
    text: [
      `${paths} ${paths === 1 ? "path" : "paths"} ${VERDICT[verdict] ?? verdict}`,
      ...(levelDb === undefined ? [] : [`level ${printSigned(levelDb, 2)} dB`]),
      ...(maxDb === undefined || levelDb === undefined || Math.abs(maxDb - levelDb) < 0.05
        ? []
        : [`response up to ${printSigned(maxDb, 2)} dB`]),
      ...(delayMs === undefined || Math.abs(delayMs) < 0.005 ? [] : [`delay ${printSigned(delayMs, 2)} ms`]),
    ].join(", "),
  }));
  return [
    { kind: "heading", level: 3, text: "What changes in sound" },
    { kind: "paragraph", text },
    ...(items.length > 0 ? [{ kind: "list", marker: "dot", items } as const] : []),
  ];
}

const VERDICT: Readonly<Record<string, string>> = {
  audible: "change",
  "within-tolerance": "within tolerance",
  missing: "fall silent",
  new: "new",
};
