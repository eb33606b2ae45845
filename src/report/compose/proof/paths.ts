import type { PathDeviation, PathGroup, PathReason, PathVerdict, Proof } from "../../../model/index.ts";
import {
  firstAndOthers,
  printDb,
  printDbChange,
  printHz,
  printMs,
  printSigned,
} from "../../../words/index.ts";
import type { Block, Item } from "../../document.ts";
import { PATH_VERDICT_WORDS } from "./words.ts";

/** Verdicts that are told group by group; the rest is told by its largest deviations. */
const TOLD: readonly PathVerdict[] = ["missing", "new", "audible", "changed-by-decision", "left-out"];

/** Verdicts that follow from a decision. */
const DECIDED: readonly PathVerdict[] = ["changed-by-decision", "left-out"];

/** The groups of paths that differ, one by one, and the largest deviations of the rest. */
export function pathBlocks(proof: Proof, shown: number): readonly Block[] {
  const told = proof.groups.filter(({ verdict }) => TOLD.includes(verdict));
  const within = proof.groups.filter(({ verdict }) => verdict === "within-tolerance");
  const blocks: Block[] = [];
  if (told.length > 0) {
    blocks.push({ kind: "heading", level: 2, text: "Paths that differ" });
    blocks.push({
      kind: "list",
      marker: "dot",
      items: told.slice(0, shown).map((group) => groupItem(group, proof)),
    });
    const rest = told.slice(shown);
    if (rest.length > 0) {
      const paths = rest.reduce((sum, { pathCount }) => sum + pathCount, 0);
      blocks.push({
        kind: "paragraph",
        text: `${rest.length} more groups with ${paths} paths deviate less; the proof as JSON holds all of them.`,
      });
    }
  }
  if (within.length > 0) {
    blocks.push({ kind: "heading", level: 2, text: "Largest deviations within tolerance" });
    blocks.push({ kind: "facts", pairs: largestDeviations(within, proof) });
  }
  return blocks;
}

function groupItem(group: PathGroup, proof: Proof): Item {
  const { verdict, reasons, deviation, pathCount } = group;
  const count = pathCount === 1 ? "1 path" : `${pathCount} paths`;
  const words = pathWords(group, proof);
  return {
    lead: words.feeds,
    tags: [PATH_VERDICT_WORDS[verdict], count],
    text: deviation === undefined ? lackWords(verdict, reasons) : deviationWords(deviation, reasons),
    notes: [`${words.channels}; ${words.presets}`],
    ...(!DECIDED.includes(verdict) && { severity: "error" as const }),
  };
}

/** What the configuration lacks that does not have the path. */
const LACKS: Readonly<Partial<Record<PathReason, string>>> = {
  "no-preset": "has no such preset",
  "no-source-channel": "takes no such channel from the preset's source",
  "no-crossing": "does not route the source channel to the program channel",
  "no-channel": "has no such program channel",
  "no-feed": "has no output for it",
  "no-mix": "does not mix the program channel into the output",
  muted: "mutes the program channel or the output",
  unmuted: "mutes the program channel or the output",
};

function lackWords(verdict: PathVerdict, reasons: readonly PathReason[]): string {
  const side = {
    missing: "The new configuration",
    "left-out": "The new configuration",
    new: "The old configuration",
  }[verdict as string];
  const lacks = reasons.flatMap((reason) => LACKS[reason] ?? []);
  return `${side ?? "One of the configurations"} ${lacks.join(" and ")}.`;
}

function deviationWords(deviation: PathDeviation, reasons: readonly PathReason[]): string {
  const parts: string[] = [];
  if (isFlat(deviation)) {
    if (deviation.levelDb !== 0)
      parts.push(`level ${printDbChange(deviation.levelDb, 2)} at all frequencies`);
  } else {
    parts.push(
      `response up to ${printDbChange(deviation.responseDb, 2)} at ${printHz(deviation.responseAtHz)}, ${printDb(deviation.responseRmsDb, 2)} rms`,
      `level ${printDbChange(deviation.levelDb, 2)}`,
    );
  }
  if (reasons.includes("low-edge")) parts.push(`below 40 Hz up to ${printDbChange(deviation.lowEdgeDb, 2)}`);
  if (reasons.includes("phase")) {
    parts.push(`phase up to ${printSigned(deviation.phaseDeg, 0)}° at ${printHz(deviation.phaseAtHz)}`);
  }
  if (deviation.seatsDb !== undefined) {
    parts.push(`at the seats, all that play together, ${printDbChange(deviation.seatsDb, 2)}`);
  }
  if (deviation.delayMs !== 0) {
    parts.push(`${printMs(Math.abs(deviation.delayMs), 3)} ${deviation.delayMs > 0 ? "late" : "early"}`);
  }
  if (deviation.polarity === "opposite") parts.push("polarity turned over");
  const words = `${parts.join("; ")}.`;
  const all = reasons.includes("not-as-decided") ? `against what was decided: ${words}` : words;
  return all.replace(/^./, (first) => first.toUpperCase());
}

/** Deviations from the mean below this are not told frequency by frequency. */
const FLAT_DB = 0.02;

function isFlat({ levelDb, responseRmsDb }: PathDeviation): boolean {
  return Math.sqrt(Math.max(0, responseRmsDb ** 2 - levelDb ** 2)) < FLAT_DB;
}

interface PathWords {
  /** "Screen left, hf way". */
  readonly feeds: string;
  /** "Server 1 through L". */
  readonly channels: string;
  /** "Feature 5.1 and 7 more presets". */
  readonly presets: string;
}

function pathWords({ paths }: PathGroup, proof: Proof): PathWords {
  const presetNames = new Map(proof.presets.map(({ presetId, label }) => [presetId, label]));
  const feedNames = new Map(proof.feeds.map(({ id, label }) => [id, label]));
  const sourceNames = new Map(
    proof.sourceChannels.map(({ id, sourceLabel, position }) => [id, `${sourceLabel} ${position}`]),
  );
  const presets = distinct(
    paths.flatMap(({ presetIds }) => presetIds.map((id) => presetNames.get(id) ?? id)),
  );
  const feeds = distinct(paths.map(({ feedId }) => feedNames.get(feedId) ?? feedId));
  const channels = distinct(paths.map(({ channel }) => channel));
  const sources = distinct(
    paths.map(({ sourceChannelId }) => sourceNames.get(sourceChannelId) ?? sourceChannelId),
  );
  const from = sources.length === 1 ? sources[0]! : `${sources.length} source channels`;
  return {
    feeds: firstAndOthers(feeds, "others"),
    channels: `${from} through ${firstAndOthers(channels, "others")}`,
    presets: firstAndOthers(presets, "more presets"),
  };
}

function distinct(names: readonly string[]): readonly string[] {
  return [...new Set(names)];
}

function largestDeviations(groups: readonly PathGroup[], proof: Proof): [string, string][] {
  const withNumbers = groups.flatMap((group) =>
    group.deviation ? [{ group, deviation: group.deviation }] : [],
  );
  const largest = (size: (deviation: PathDeviation) => number) =>
    withNumbers.reduce((most, item) => (size(item.deviation) > size(most.deviation) ? item : most));
  const lines: readonly [
    string,
    (deviation: PathDeviation) => number,
    (deviation: PathDeviation) => string,
  ][] = [
    [
      "Response",
      ({ responseDb }) => Math.abs(responseDb),
      ({ responseDb, responseAtHz }) => `${printDbChange(responseDb, 2)} at ${printHz(responseAtHz)}`,
    ],
    ["Response, rms", ({ responseRmsDb }) => responseRmsDb, ({ responseRmsDb }) => printDb(responseRmsDb, 2)],
    ["Level", ({ levelDb }) => Math.abs(levelDb), ({ levelDb }) => printDbChange(levelDb, 2)],
    [
      "Phase",
      ({ phaseDeg }) => Math.abs(phaseDeg),
      ({ phaseDeg, phaseAtHz }) => `${printSigned(phaseDeg, 1)}° at ${printHz(phaseAtHz)}`,
    ],
    ["Delay", ({ delayMs }) => Math.abs(delayMs), ({ delayMs }) => `${printSigned(delayMs, 3)} ms`],
  ];
  return lines.flatMap(([name, size, words]): [string, string][] => {
    const { group, deviation } = largest(size);
    if (size(deviation) === 0) return [];
    const { feeds, presets } = pathWords(group, proof);
    return [[name, `${words(deviation)} (${feeds}; ${presets})`]];
  });
}
