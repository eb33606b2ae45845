import { readFileSync } from "node:fs";
import { join } from "node:path";
import type {
  Configuration,
  PathDeviation,
  PathGroup,
  PathVerdict,
  Proof,
  UnitProfile,
} from "../../src/model/index.ts";
import { unitAcoustics } from "../../src/profile/index.ts";
import { type ProofUnit, type ProveOptions, prove } from "../../src/proof/index.ts";

const samples = join(import.meta.dirname, "..", "..", "samples");

export function readSample<Document>(...path: readonly string[]): Document {
  return JSON.parse(readFileSync(join(samples, ...path), "utf8")) as Document;
}

/** A large auditorium: 7.1DS, three-way screen loudspeakers, 14 presets. */
export const large = readSample<Configuration>("screens", "lantern-mill", "screen-1.json");
/** A small one: 5.1, two-way screen loudspeakers. */
export const small = readSample<Configuration>("screens", "lantern-mill", "screen-4.json");

export const screens: readonly Configuration[] = [
  large,
  small,
  readSample<Configuration>("screens", "copper-heron", "screen-1.json"),
  readSample<Configuration>("screens", "copper-heron", "screen-2.json"),
];

const profiles = new Map<string, UnitProfile>();

export function profileOf({ unit }: Configuration): UnitProfile {
  const known = profiles.get(unit.profileId) ?? readSample<UnitProfile>("profiles", `${unit.profileId}.json`);
  profiles.set(unit.profileId, known);
  return known;
}

export function unitOf(configuration: Configuration): ProofUnit {
  const profile = profileOf(configuration);
  return { ...unitAcoustics(profile, configuration.unit.sampleRateHz), fader: profile.fader };
}

/** A proof with the units that the documents name. */
export function proveSamples(
  before: Configuration,
  after: Configuration,
  options: Omit<ProveOptions, "beforeUnit" | "afterUnit"> = {},
): Proof {
  return prove(before, after, { beforeUnit: unitOf(before), afterUnit: unitOf(after), ...options });
}

/** The same type with everything open to change: for planting faults into a copy. */
export type Draft<T> = T extends readonly (infer Item)[]
  ? Draft<Item>[]
  : T extends object
    ? { -readonly [Name in keyof T]: Draft<T[Name]> }
    : T;

/** A changed copy. */
export function changed(
  configuration: Configuration,
  change: (draft: Draft<Configuration>) => void,
): Configuration {
  const draft = structuredClone(configuration) as Draft<Configuration>;
  change(draft);
  return draft as Configuration;
}

/** The item of a list with an id. */
export function item<Item extends { readonly id: string }>(list: readonly Item[], id: string): Item {
  const found = list.find((candidate) => candidate.id === id);
  if (found === undefined) throw new Error(`no '${id}'`);
  return found;
}

/** One path of a proof, taken out of its group. */
export interface ProvedPath {
  readonly presetId: string;
  readonly sourceChannelId: string;
  readonly channel: string;
  readonly feedId: string;
  readonly verdict: PathVerdict;
  readonly reasons: PathGroup["reasons"];
  readonly deviation: PathDeviation | undefined;
}

export function pathsOf({ groups }: Proof): readonly ProvedPath[] {
  return groups.flatMap(({ verdict, reasons, deviation, paths }) =>
    paths.flatMap(({ presetIds, sourceChannelId, channel, feedId }) =>
      presetIds.map((presetId) => ({
        presetId,
        sourceChannelId,
        channel,
        feedId,
        verdict,
        reasons,
        deviation,
      })),
    ),
  );
}

/** The feeds of all paths with a verdict, each once, sorted. */
export function feedsWith(proof: Proof, verdict: PathVerdict): readonly string[] {
  const feeds = pathsOf(proof)
    .filter((path) => path.verdict === verdict)
    .map(({ feedId }) => feedId);
  return [...new Set(feeds)].sort();
}
