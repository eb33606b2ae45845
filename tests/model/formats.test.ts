import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  type Carried,
  CHANNELS,
  type ChannelLabel,
  carriedAtPosition,
  checkGroup,
  FORMAT_CHANNELS,
  type Format,
  formatOf,
  isForAuditorium,
  positionOf,
} from "../../src/model/index.ts";

// SMPTE ST 428-12:2013 and ISDCF Document 4 of 2017-06-29, as transcribed with their standing in formats.json.
interface Reference {
  facts: {
    channels: { label: ChannelLabel; name: string; tagSymbol: string; role: string }[];
    soundfieldGroups: { format: Format; channels: ChannelLabel[] }[];
    otherFormats: { format: string; channels?: ChannelLabel[] }[];
    assignments: { id: string; positions?: Record<string, unknown>[] }[];
    neverReachAnAuditoriumLoudspeaker: { label: string }[];
  };
  cases: Record<string, unknown>[];
}
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, "../reference/formats.json"), "utf8"),
) as Reference;

const DATA: Readonly<Record<string, Carried>> = {
  motionData: "motion-data",
  syncSignal: "sync-signal",
  signLanguageVideo: "sign-language-video",
};
const ours = (label: string) => DATA[label] ?? (label as Carried);

describe("formats", () => {
  it("has the channels of ST 428-12 with their names, symbols and roles", () => {
    expect(Object.keys(CHANNELS).sort()).toEqual(reference.facts.channels.map((item) => item.label).sort());
    for (const { label, name, tagSymbol, role } of reference.facts.channels) {
      expect(CHANNELS[label]).toEqual({ name, tagSymbol, role });
    }
  });

  it("has the groups of ST 428-12, and stereo of ST 2067-8", () => {
    const stereo = reference.facts.otherFormats.find((item) => item.format === "stereo");
    const groups = [...reference.facts.soundfieldGroups, { ...stereo!, format: "stereo" as const }];
    expect(groups).toHaveLength(Object.keys(FORMAT_CHANNELS).length);
    for (const { format, channels } of groups) expect(FORMAT_CHANNELS[format]).toEqual(channels);
  });

  it("has every position of ISDCF Document 4", () => {
    const doc4 = reference.facts.assignments.find((item) => item.id === "isdcf-doc4-2017")!;
    for (const row of doc4.positions!) {
      for (const format of ["5.1", "7.1DS", "7.1SDS"] as const) {
        const expected =
          row.position === 16 ? "unused" : row[format] === null ? undefined : ours(String(row[format]));
        expect(carriedAtPosition(format, Number(row.position))).toBe(expected);
      }
    }
    expect(positionOf("6.1", "Cs")).toBeUndefined();
  });

  it("answers the reference cases", () => {
    let answered = 0;
    for (const item of reference.cases) {
      const format = item.format as Format;
      const expected = item.expected ?? undefined;
      if (item.kind === "labelAtPosition") {
        const found = carriedAtPosition(format, Number(item.position));
        expect(found === "unused" ? undefined : found, String(item.id)).toBe(
          typeof expected === "string" ? ours(expected) : undefined,
        );
      } else if (item.kind === "positionOfLabel") {
        expect(positionOf(format, ours(String(item.label))), String(item.id)).toBe(expected);
      } else if (item.kind === "audible") {
        expect(isForAuditorium(ours(String(item.label))), String(item.id)).toBe(expected);
      } else if (item.kind === "groupOf") {
        expect(formatOf(item.channels as ChannelLabel[]), String(item.id)).toBe(expected);
      } else if (item.kind === "groupCheck") {
        const { missing, outside, headset, twice } = checkGroup(format, item.routed as ChannelLabel[]);
        expect(
          {
            missing,
            outside: [...outside].sort(),
            forbiddenOnLoudspeaker: [...headset].sort(),
            routedTwice: [...twice].sort(),
          },
          String(item.id),
        ).toEqual(expected);
      } else throw new Error(`unknown case ${String(item.kind)}`);
      answered += 1;
    }
    expect(answered).toBe(reference.cases.length);
    expect(answered).toBeGreaterThan(30);
  });
});
