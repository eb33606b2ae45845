import type { DriftedScreen, DriftFinding, Since } from "../../../fleet/drift/index.ts";
import type { OddOneOut, TwinGroup } from "../../../fleet/likeness/index.ts";
import { fieldAt } from "../../../model/index.ts";
import { counted, firstOf, printValue } from "../../../words/index.ts";
import type { Block, Item, ReportDocument } from "../../document.ts";
import { acceptedBlocks } from "./accepted.ts";
import { HOW, valueNotes } from "./words.ts";

/** How far screens are from a standard. */
export interface ReportedDrift {
  readonly standard: { readonly id: string; readonly version: string; readonly title: string };
  readonly screens: number;
  readonly following: number;
  readonly byDecision: number;
  readonly others: readonly string[];
  readonly unread: readonly { readonly name: string; readonly words: string }[];
  readonly findings: readonly DriftFinding[];
  readonly accepted: readonly DriftFinding[];
  readonly twins: readonly TwinGroup[];
}

/** Drift from a house standard: each different deviation once, however many screens have it. */
export function driftReport(drift: ReportedDrift): ReportDocument {
  const { standard, screens, following, byDecision, others, findings } = drift;
  return {
    title: `Against the standard ${standard.title}`,
    subtitle: `${standard.id} ${standard.version}; ${following} of ${counted(screens, "screen")} ${following === 1 ? "follows" : "follow"} it in everything${byDecision === 0 ? "" : `, ${byDecision} more but for what was decided`}`,
    blocks: [
      ...(findings.length === 0
        ? []
        : ([
            { kind: "list", marker: "number", items: findings.map((finding) => itemOf(finding, screens)) },
          ] as Block[])),
      ...acceptedBlocks(drift.accepted, screens),
      ...twinBlocks(drift.twins),
      ...unreadBlocks(drift.unread),
      ...(others.length === 0
        ? []
        : [note(`The standard is not for ${counted(others.length, "screen")}: ${firstOf(others, 6)}.`)]),
    ],
  };
}

function itemOf(finding: DriftFinding, all: number): Item {
  const { words, label, code, kind, severity, owner, reason, screens } = finding;
  return {
    lead: `${words}, ${label}`,
    text: `${HOW[code]} on ${screens.length} of ${counted(all, "screen")}.`,
    tags: [kind],
    severity,
    notes: [
      ...valueNotes(finding),
      ...(screens.length > 1 || all > 1
        ? [
            `On ${firstOf(
              screens.map(({ name }) => name),
              6,
            )}.`,
          ]
        : []),
      ...sinceNotes(screens),
      ...(reason === undefined ? [] : [`Held because: ${reason}`]),
      ...(owner === "house" ? [] : ["By hand: applying the standard does not touch it."]),
    ],
  };
}

/** Since when, for screens whose history is known: those that go together in one line. */
function sinceNotes(screens: readonly DriftedScreen[]): readonly string[] {
  const known = screens.flatMap(({ name, since }) => (since === undefined ? [] : [{ name, since }]));
  const [first] = known;
  if (first === undefined) return [];
  if (known.every(({ since }) => since.fromTheStart)) return ["So since the first entry."];
  const seen = known.filter(({ since }) => !since.fromTheStart);
  const start = known.length - seen.length;
  if (seen.length > MOST_ENTRIES) {
    const others = start === 0 ? "" : ` On ${start} since the first entry.`;
    return [`${firstSeen(seen.map(({ since }) => since))}${others}`];
  }
  const lines = seen.map(({ name, since }) => {
    const where = screens.length === 1 ? "" : `${name} `;
    return `${where}since entry ${since.number} (${since.recordedAt.slice(0, 10)}, ${since.reason}, ${since.recordedBy})`;
  });
  const others = start === 0 ? "" : `; ${start} since the first entry`;
  return [`${screens.length === 1 ? "So" : "So on"} ${lines.join("; ")}${others}.`];
}

/** So many entries are told one by one. */
const MOST_ENTRIES = 3;

/** "First seen in entries of 2026-03-01 to 2026-04-20, recorded by Projection (31), Service team (2)." */
function firstSeen(since: readonly Since[]): string {
  const days = since.map(({ recordedAt }) => recordedAt.slice(0, 10)).sort();
  const [first, last] = [days[0]!, days.at(-1)!];
  const counts = new Map<string, number>();
  for (const { recordedBy } of since) counts.set(recordedBy, (counts.get(recordedBy) ?? 0) + 1);
  const people = [...counts].sort((a, b) => b[1] - a[1]).map(([name, number]) => `${name} (${number})`);
  const when = first === last ? `of ${first}` : `of ${first} to ${last}`;
  return `First seen in entries ${when}, recorded by ${firstOf(people, 4)}.`;
}

function unreadBlocks(unread: ReportedDrift["unread"]): readonly Block[] {
  if (unread.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Not read" },
    { kind: "list", marker: "dot", items: unread.map(({ name, words }) => ({ lead: name, text: words })) },
  ];
}

function twinBlocks(groups: readonly TwinGroup[]): readonly Block[] {
  const odd = groups.filter((group) => group.odd.length > 0);
  if (odd.length === 0) return [];
  return [
    { kind: "heading", level: 2, text: "Screens that should be alike" },
    ...odd.flatMap((group): readonly Block[] => [
      {
        kind: "heading",
        level: 3,
        text: `${counted(group.screens, "screen")} in ${group.format}, ${group.drives.join(" and ")}, unit ${group.profileId}`,
      },
      { kind: "list", marker: "dot", items: oddItems(group) },
    ]),
  ];
}

/** So many places are told of one odd screen; the rest are counted. */
const MOST_PLACES = 8;

/** The odd ones out, each with all the places in which it is odd. */
function oddItems({ odd, screens }: TwinGroup): readonly Item[] {
  const byScreens = new Map<string, { readonly names: readonly string[]; readonly notes: string[] }>();
  for (const one of odd) {
    for (const { value, screens: names } of one.others) {
      const key = names.join("\n");
      const known = byScreens.get(key) ?? { names, notes: [] };
      known.notes.push(oddWords(one, value));
      byScreens.set(key, known);
    }
  }
  return [...byScreens.values()]
    .sort((a, b) => b.notes.length - a.notes.length)
    .map(({ names, notes }) => ({
      lead: firstOf(names, 6),
      text: `other than its twins (${screens} screens) in ${counted(notes.length, "place")}:`,
      notes: [
        ...notes.slice(0, MOST_PLACES),
        ...(notes.length > MOST_PLACES ? [`and ${notes.length - MOST_PLACES} more`] : []),
      ],
    }));
}

function oddWords({ place, field, usual }: OddOneOut, value: OddOneOut["usual"]): string {
  const print = (one: unknown) => (one === null ? "nothing there" : printValue(field, one));
  if (Array.isArray(value) && Array.isArray(usual)) {
    return `${place}: ${listWords(usual as string[], value as string[])}`;
  }
  const label = fieldAt(field)?.label;
  const where = label === undefined ? place : `${place.split("/").slice(0, -1).join("/")}, ${label}`;
  return `${where}: ${print(value)}; usually ${print(usual)}`;
}

function listWords(usual: readonly string[], value: readonly string[]): string {
  const more = value.filter((key) => !usual.includes(key));
  const less = usual.filter((key) => !value.includes(key));
  return [
    ...(more.length > 0 ? [`also has ${firstOf(more, 4)}`] : []),
    ...(less.length > 0 ? [`lacks ${firstOf(less, 4)}`] : []),
  ].join(", ");
}

function note(text: string): Block {
  return { kind: "paragraph", weight: "note", text };
}
