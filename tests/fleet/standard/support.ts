import { readFileSync } from "node:fs";
import { join } from "node:path";
import { compileStandard } from "../../../src/fleet/standard/index.ts";
import type { Configuration, Standard, StandardLine, UnitProfile } from "../../../src/model/index.ts";

const samples = join(import.meta.dirname, "..", "..", "..", "samples");

function read<Document>(name: string): Document {
  return JSON.parse(readFileSync(join(samples, name), "utf8")) as Document;
}

export const largeScreen = read<Configuration>("screens/lantern-mill/screen-1.json");
export const smallScreen = read<Configuration>("screens/lantern-mill/screen-4.json");
export const mediumScreen = read<Configuration>("screens/copper-heron/screen-2.json");
export const mediumProfile = read<UnitProfile>("profiles/whimbrel-32.json");
export const largeProfile = read<UnitProfile>("profiles/skarn-30.json");
export const smallProfile = read<UnitProfile>("profiles/dunlin-16.json");

/** A standard of these lines. */
export function standardOf(
  lines: readonly StandardLine[],
  version = "1.0.0",
  more: Partial<Standard> = {},
): Standard {
  return {
    kind: "boothkeep.standard",
    schemaVersion: "1.0.0",
    id: "house",
    version,
    title: "House",
    issuedOn: "2026-10-01",
    issuedBy: "Sound team",
    screens: {},
    lines,
    ...more,
  };
}

export function compiledOf(lines: readonly StandardLine[], version?: string, more?: Partial<Standard>) {
  return compileStandard(standardOf(lines, version, more));
}

/** A configuration whose members can be set. */
// biome-ignore lint/suspicious/noExplicitAny: a test edits any part of a document that has just been copied
export type Draft = any;

export function edited(base: Configuration, edit: (draft: Draft) => void): Configuration {
  const draft: Draft = structuredClone(base);
  edit(draft);
  return draft as Configuration;
}

export function preset(draft: Draft, id: string): Draft {
  return draft.presets.find((item: Draft) => item.id === id);
}
