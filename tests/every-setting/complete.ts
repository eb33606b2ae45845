import { readFileSync } from "node:fs";
import { join } from "node:path";
import { graphicBandIndices } from "../../src/acoustics/index.ts";
import { validateConfiguration } from "../../src/model/generated/validators.js";
import {
  type Configuration,
  type EqBand,
  fieldAt,
  type GraphicLayout,
  readConfiguration,
  readProfile,
  type UnitProfile,
} from "../../src/model/index.ts";
import { gridCount, gridIndex, gridValue, limitedNumbers } from "../../src/profile/index.ts";
import { type SchemaNode, schemaParts } from "../diff/changes/schema-leaves.ts";

const folder = join(import.meta.dirname, "..", "..", "samples", "complete");

/** A configuration with the unit that it is for. */
export interface Subject {
  readonly configuration: Configuration;
  readonly profile: UnitProfile;
}

/** The sample that has at least one of whatever the schema knows. */
const complete: Subject = {
  configuration: readConfiguration(readFileSync(join(folder, "screen.json"))).document,
  profile: readProfile(readFileSync(join(folder, "profile.json"))).document,
};

/** A list takes shelves by Q or by slope: the same sample and unit with the two exchanged. */
function otherShelves({ configuration, profile }: Subject): Subject {
  const exchanged = (band: EqBand): EqBand => {
    if (band.kind !== "low-shelf" && band.kind !== "high-shelf") return band;
    const { q, slope: _slope, ...rest } = band;
    return q === undefined ? { ...rest, q: 0.7 } : { ...rest, slope: 1 };
  };
  const { filters } = profile.outputs;
  const { parametric } = profile.equalizations;
  return {
    configuration: {
      ...configuration,
      equalizations: configuration.equalizations.map((set) => ({
        ...set,
        channels: set.channels.map((channel) => ({
          ...channel,
          ...(channel.parametric && { parametric: channel.parametric.map(exchanged) }),
        })),
      })),
      outputs: configuration.outputs.map((output) => ({ ...output, filters: output.filters.map(exchanged) })),
    },
    profile: {
      ...profile,
      equalizations: { ...profile.equalizations, parametric: filters! },
      outputs: { ...profile.outputs, filters: parametric! },
    },
  };
}

export const SUBJECTS: readonly Subject[] = [complete, otherShelves(complete)];

type Key = string | number;
type Tree = Record<Key, unknown>;

/** One value of the sample. */
export interface Leaf {
  /** Names and indices from the root. */
  readonly keys: readonly Key[];
  /** As in the table of fields. */
  readonly path: string;
  /** The path with the kind of each part that is one of several: "outputs[].filters[]<notch>.q". */
  readonly shape: string;
  readonly value: unknown;
}

/** Parts of which there are several sorts, told apart by their `kind`. */
const SORTED = /(^|\.)(parametric|filters)\[\]$|(^|\.)(trigger|action|feeds)$/;

export function leavesOf(value: unknown, keys: readonly Key[] = [], path = "", shape = ""): readonly Leaf[] {
  if (Array.isArray(value)) {
    return value.flatMap((item, at) => leavesOf(item, [...keys, at], `${path}[]`, `${shape}[]`));
  }
  if (typeof value !== "object" || value === null) return [{ keys, path, shape, value }];
  const sort = SORTED.test(path) ? `<${(value as Tree).kind}>` : "";
  const below = (part: string, name: string) => (part === "" ? name : `${part}.${name}`);
  return Object.entries(value).flatMap(([name, child]) =>
    leavesOf(child, [...keys, name], below(path, name), below(`${shape}${sort}`, name)),
  );
}

/** Every shape that the schema allows, read from its file alone. */
export function schemaShapes(): readonly string[] {
  const { root, resolve } = schemaParts();
  const shapes: string[] = [];
  const walk = (given: SchemaNode, path: string, shape: string): void => {
    const node = resolve(given);
    const branches = node.oneOf ?? node.anyOf;
    if (branches !== undefined) {
      for (const branch of branches) {
        const { kind } = resolve(branch).properties!;
        for (const sort of kind!.enum ?? [kind!.const!]) members(resolve(branch), path, `${shape}<${sort}>`);
      }
    } else if (node.properties !== undefined) members(node, path, shape);
    else if (node.type === "array") walk(node.items!, `${path}[]`, `${shape}[]`);
    else shapes.push(shape);
  };
  const members = ({ properties }: SchemaNode, path: string, shape: string): void => {
    for (const [name, child] of Object.entries(properties!)) {
      walk(child, path === "" ? name : `${path}.${name}`, shape === "" ? name : `${shape}.${name}`);
    }
  };
  walk(root, "", "");
  return shapes;
}

const { leaves: schemaLeaves } = schemaParts();

/**
 * A copy in which one leaf has another value that is valid by the schema and refers to something that is there. Where a
 * part is one of several sorts its kind cannot change alone: then another part of the sample takes its place.
 */
export function changedAt(subject: Subject, leaf: Leaf): Configuration | undefined {
  const { configuration } = subject;
  const copies = otherValues(subject, leaf)
    .filter((value) => value !== leaf.value)
    .map((value) => adapted(withValue(configuration, leaf.keys, value), leaf));
  const parts = leaf.path.endsWith(".kind") ? otherParts(configuration, leaf) : [];
  return [...copies, ...parts].find((copy) => validateConfiguration(copy));
}

function otherValues(subject: Subject, { keys, path, value }: Leaf): readonly unknown[] {
  if (typeof value === "boolean") return [!value];
  if (typeof value === "number") return [otherNumber(subject, keys, value), value * 2, value + 1, value - 1];
  const { refersTo } = fieldAt(path)!;
  if (refersTo !== undefined) {
    const taken = takenKeys(subject.configuration, keys);
    return keysOf(subject.configuration, refersTo, keys).filter((key) => !taken.has(key));
  }
  if (path.endsWith("onnectorId")) return otherConnectors(subject, String(value));
  const choices = schemaLeaves.get(path)?.enum ?? CHOICES_OF_BRANCHES[path] ?? [];
  return choices.length > 0 ? choices : otherTexts(String(value));
}

/** A tenth of the range away, so that no tolerance hides it. */
function otherNumber({ configuration, profile }: Subject, keys: readonly Key[], value: number): number {
  const grid = limitedNumbers(configuration, profile).find(
    ({ path }) => path.join("/") === keys.join("/"),
  )?.grid;
  if (grid === undefined) return value;
  const at = gridIndex(grid, value);
  const far = Math.max(1, Math.round(gridCount(grid) / 10));
  return gridValue(grid, at + far < gridCount(grid) ? at + far : Math.max(0, at - far));
}

const FILTER_KINDS = [
  "peaking",
  "low-shelf",
  "high-shelf",
  "high-pass",
  "low-pass",
  "band-pass",
  "notch",
  "all-pass",
];

/** Choices that the schema spreads over several branches. */
const CHOICES_OF_BRANCHES: Readonly<Record<string, readonly string[]>> = {
  "outputs[].feeds.kind": ["hearing-impaired", "narration", "booth-monitor", "spare"],
  "automation[].action.kind": ["mute", "unmute"],
  "automation[].trigger.kind": ["contact", "serial", "network"],
  "outputs[].filters[].kind": FILTER_KINDS,
  "equalizations[].channels[].parametric[].kind": FILTER_KINDS,
};

/** Another text, another version, another address. */
function otherTexts(text: string): readonly string[] {
  return [`${text}9`, text.replace(/\d+$/, (digits) => String(Number(digits) + 1))];
}

/** Keys that the items beside this one have, where this leaf is the key of its item. */
function takenKeys(configuration: Configuration, keys: readonly Key[]): ReadonlySet<unknown> {
  if (keys.at(-1) !== "channelId" || typeof keys.at(-2) !== "number" || keys.at(-3) === "routing") {
    return new Set();
  }
  const items = at(configuration, keys.slice(0, -2)) as readonly Tree[];
  return new Set(items.map(({ channelId }) => channelId));
}

/** Ids of a list that a leaf may refer to: "sources[].channels" means those of the preset's source. */
function keysOf(configuration: Configuration, list: string, keys: readonly Key[]): readonly string[] {
  if (list === "loudspeakers[].ways") {
    const { loudspeakerId } = at(configuration, keys.slice(0, -1)) as { readonly loudspeakerId: string };
    return configuration.loudspeakers.find(({ id }) => id === loudspeakerId)!.ways.map(({ id }) => id);
  }
  if (list === "sources[].channels") {
    const preset = configuration.presets[keys[1] as number]!;
    return configuration.sources.find(({ id }) => id === preset.sourceId)!.channels.map(({ id }) => id);
  }
  return (at(configuration, list.split(".")) as readonly Tree[]).map(({ id }) => String(id));
}

/** Connectors of the same kind: those that nothing uses, then the others. */
function otherConnectors({ configuration, profile }: Subject, id: string): readonly string[] {
  const used = new Set(
    leavesOf(configuration)
      .filter(({ path }) => path.endsWith("onnectorId"))
      .map(({ value }) => value),
  );
  const own = profile.connectors.find((connector) => connector.id === id)!;
  const like = profile.connectors
    .filter(({ direction, kind }) => direction === own.direction && kind === own.kind)
    .map((connector) => connector.id);
  return [...like.filter((other) => !used.has(other)), ...like];
}

/** What another value brings with it: as many gains as the bands, the channels of the source, a way of the loudspeaker. */
function adapted(copy: Configuration, { keys, path }: Leaf): Configuration {
  const holder = at(copy, keys.slice(0, -1));
  if (path.endsWith("graphic.layout")) {
    const graphic = holder as { layout: GraphicLayout; gainsDb: readonly number[] };
    graphic.gainsDb = graphicBandIndices(graphic.layout).map((_, band) => (band % 3) - 1);
  }
  if (path === "presets[].sourceId") {
    const preset = holder as { sourceId: string; routing: { sourceChannelId: string }[] };
    const { channels } = copy.sources.find(({ id }) => id === preset.sourceId)!;
    preset.routing = preset.routing
      .slice(0, channels.length)
      .map((route, index) => ({ ...route, sourceChannelId: channels[index]!.id }));
  }
  if (path === "outputs[].feeds.loudspeakerId") {
    const feeds = holder as { loudspeakerId: string; wayId: string };
    feeds.wayId = copy.loudspeakers.find(({ id }) => id === feeds.loudspeakerId)!.ways[0]!.id;
  }
  return copy;
}

function otherParts(configuration: Configuration, { keys, path, value }: Leaf): readonly Configuration[] {
  const own = at(configuration, keys.slice(0, -1)) as Tree;
  return leavesOf(configuration)
    .filter((other) => other.path === path && other.value !== value)
    .map((other) => {
      const part = at(configuration, other.keys.slice(0, -1)) as Tree;
      return withValue(configuration, keys.slice(0, -1), {
        ...part,
        ...(own.id !== undefined && { id: own.id }),
      });
    });
}

function at(document: unknown, keys: readonly Key[]): unknown {
  return keys.reduce<unknown>((node, key) => (node as Tree)[key], document);
}

function withValue(configuration: Configuration, keys: readonly Key[], value: unknown): Configuration {
  const copy = structuredClone(configuration);
  (at(copy, keys.slice(0, -1)) as Tree)[keys.at(-1)!] = value;
  return copy;
}
