import type { PrintedImprint } from "../../../logbook/imprint/index.ts";
import type { Cable, PlanDocument, PlugPlace } from "../../../model/index.ts";
import { CAUTION_STEPS, cautionBlock } from "../../cautions.ts";
import type { Block, ReportDocument, Table } from "../../document.ts";
import { imprintBlocks, imprintFooter } from "../imprint-block.ts";
import { physicalCables } from "./physical-cables.ts";
import { wiringWork } from "./wiring-work.ts";

/** Names for the heading of a repatch sheet, and the code on it. */
export interface RepatchOptions {
  /** What the units and the screen are called. */
  readonly names: { readonly screen: string; readonly from: string; readonly to: string };
  /** Code by which the paper is matched with the settings of the new unit. */
  readonly imprint?: PrintedImprint;
}

const DIRECTION_WORDS = { input: "Inputs", output: "Outputs", control: "Control" } as const;
const STYLE_WORDS: Readonly<Record<string, string>> = {
  db25: "DB-25",
  xlr: "XLR",
  "terminal-block": "terminal block",
  rj45: "RJ45",
  coaxial: "coaxial",
  de9: "DE-9",
};

/**
 * Which cable goes where: block by block along the rear panel of the old unit, a box to tick for each cable; what else the
 * decisions ask for in the rack; then the cables along the new unit, to check what is plugged.
 */
export function repatchSheet(
  plan: Pick<PlanDocument, "cables"> & Partial<Pick<PlanDocument, "questions">>,
  { names, imprint }: RepatchOptions,
): ReportDocument {
  const cables = physicalCables(plan.cables);
  const moved = cables.filter((cable) => cable.moved && cable.to.length > 0).length;
  const unplugged = cables.filter(({ to }) => to.length === 0).length;
  return {
    title: `Re-patch sheet: ${names.screen}`,
    subtitle: `From ${names.from} to ${names.to}`,
    ...imprintFooter(imprint),
    blocks: [
      cautionBlock(),
      ...imprintBlocks(imprint),
      {
        kind: "list",
        marker: "box",
        items: [
          { text: "Photograph the rear panel of the old unit." },
          { text: "Mark every cable with its old connector before the first one is pulled." },
          { text: CAUTION_STEPS.oldUnitOff },
        ],
      },
      {
        kind: "paragraph",
        text: countWords(cables.length, moved, unplugged),
      },
      { kind: "heading", level: 2, text: "Cable by cable, along the old unit" },
      ...byBlock(cables, ({ from }) => from).flatMap(({ caption, members }): readonly Block[] => [
        oldTable(`${caption}${newPlugs(members)}`, members),
        ...pinBlocks(caption, members),
      ]),
      ...wiringWork(plan.questions ?? []),
      { kind: "page-break" },
      { kind: "heading", level: 2, text: "Check: along the new unit" },
      ...byBlock([...cables].filter(({ to }) => to.length > 0).sort(alongNew), ({ to }) => to).map(
        ({ caption, members }) => newTable(caption, members),
      ),
      { kind: "signatures", roles: ["Plugged by", "Checked by"] },
    ],
  };
}

function countWords(all: number, moved: number, unplugged: number): string {
  const verb = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;
  return [
    `${verb(all, "cable", "cables")}: ${verb(moved, "goes", "go")} elsewhere (in strong type)`,
    `${verb(all - moved - unplugged, "keeps its", "keep their")} place`,
    `${verb(unplugged, "stays", "stay")} unplugged.`,
  ].join(", ");
}

const DIRECTIONS = ["input", "output", "control"] as const;

function alongNew(a: Cable, b: Cable): number {
  const place = ({ to }: Cable) => to[0]!;
  return (
    DIRECTIONS.indexOf(a.direction) - DIRECTIONS.indexOf(b.direction) ||
    place(a).rack - place(b).rack ||
    place(a).position - place(b).position
  );
}

interface BlockOfCables {
  readonly caption: string;
  readonly members: readonly Cable[];
}

function byBlock(
  cables: readonly Cable[],
  side: (cable: Cable) => readonly PlugPlace[],
): readonly BlockOfCables[] {
  const blocks = new Map<string, Cable[]>();
  for (const cable of cables) {
    const first = side(cable)[0]!;
    const caption = `${DIRECTION_WORDS[cable.direction]}: ${first.group}, ${styleWords(first)}`;
    const members = blocks.get(caption);
    if (members === undefined) blocks.set(caption, [cable]);
    else members.push(cable);
  }
  return [...blocks].map(([caption, members]) => ({ caption, members }));
}

function styleWords({ style }: PlugPlace): string {
  return STYLE_WORDS[style] ?? style;
}

function oldTable(caption: string, cables: readonly Cable[]): Table {
  return {
    kind: "table",
    caption,
    boxes: true,
    columns: [{ header: "Old" }, { header: "New" }, { header: "Carries" }, { header: "Cable" }],
    rows: cables.map((cable) => [
      labels(cable.from),
      cable.moved && cable.to.length > 0 ? { text: newWords(cable), strong: true as const } : newWords(cable),
      cable.words,
      remark(cable),
    ]),
  };
}

function newWords({ to }: Cable): string {
  if (to.length === 0) return "unplugged";
  const [first] = to;
  return `${first!.group}: ${labels(to)}`;
}

/** "AES 1 + AES 2"; many channels of one network cable by the first and the last. */
function labels(plugs: readonly PlugPlace[]): string {
  if (plugs.length > 2) return `${plugs[0]!.label} to ${plugs.at(-1)!.label}`;
  return plugs.map(({ label }) => label).join(" + ");
}

function remark({ to, moved }: Cable): string {
  if (to.length === 0) return "";
  return moved ? "moves" : "stays";
}

/** "; new plugs: terminal block" where the new unit wants others. */
function newPlugs(cables: readonly Cable[]): string {
  const styles = cables.flatMap(({ from, to }) =>
    to.length > 0 && from[0]!.style !== to[0]!.style ? [styleWords(to[0]!)] : [],
  );
  return styles.length === 0 ? "" : `; new plugs: ${[...new Set(styles)].join(", ")}`;
}

/** Where a DB-25 names its wiring: the pins of each circuit on both sides. */
function pinBlocks(caption: string, cables: readonly Cable[]): readonly Block[] {
  const wired = cables.filter(({ from, to }) => [...from, ...to].some(({ pins }) => pins !== undefined));
  if (wired.length === 0) return [];
  return [
    {
      kind: "table",
      caption: `Pins by AES59 for ${caption}`,
      columns: [{ header: "Old" }, { header: "Pins" }, { header: "New" }, { header: "Pins" }],
      rows: wired.map(({ from, to }) => [labels(from), pins(from), labels(to), pins(to)]),
    },
  ];
}

/** Two channels of one line share their pins. */
function pins(plugs: readonly PlugPlace[]): string {
  return [...new Set(plugs.map((plug) => plug.pins ?? "as on the unit"))].join("; ");
}

function newTable(caption: string, cables: readonly Cable[]): Table {
  return {
    kind: "table",
    caption,
    boxes: true,
    columns: [{ header: "New" }, { header: "Carries" }, { header: "Came from" }],
    rows: cables.map((cable) => [
      labels(cable.to),
      cable.words,
      `${cable.from[0]!.group}: ${labels(cable.from)}`,
    ]),
  };
}
