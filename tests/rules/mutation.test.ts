import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pointerParts } from "../../src/base/findings/index.ts";
import { CHANNELS, type Configuration } from "../../src/model/index.ts";
import { gridRange, limitedNumbers } from "../../src/profile/index.ts";
import { at, mutations, type Path, pointerOf, smallMutations, withValue } from "../model/mutation.ts";
import { runs } from "../runs.ts";
import { findingsOf, screen, unit } from "./rule-book-screen.ts";

describe("a changed place", () => {
  it("is named when the change breaks the shape", () => {
    let broken = 0;
    fc.assert(
      fc.property(mutations(screen), ({ path, document }) => {
        fc.pre(path[0] !== "kind" && path[0] !== "schemaVersion");
        const findings = findingsOf(document).filter(({ code }) => code.startsWith("shape/"));
        const own = findings.filter(({ code }) => code !== "shape/dangling-reference");
        if (own.length === 0) return;
        broken += 1;
        // What was taken out is named at the object that misses it; a double at the second of the two.
        const names = own.map(({ place }) => place.pointer);
        const isNamed = names.some(
          (name) => isNear(name, pointerOf(path)) || isNear(name, pointerOf(path.slice(0, -1))),
        );
        expect(isNamed, `${pointerOf(path)} among ${names.join(" ")}`).toBe(true);
      }),
      { numRuns: runs(150) },
    );
    expect(broken).toBeGreaterThan(100);
  });

  it("is named to the digit when a number leaves the unit's range", () => {
    const numbers = limitedNumbers(screen, unit);
    fc.assert(
      fc.property(fc.constantFrom(...numbers), ({ path, grid }) => {
        const { min, max } = gridRange(grid);
        // Half a thousandth of the range beyond the end; inside what the schema takes, or the shape is told.
        const beyond = Number((max + (max - min) * 0.0005).toPrecision(9));
        const names = findingsOf(withValue(screen, path, beyond)).map(({ place }) => place.pointer);
        expect(names).toContain(pointerOf(path));
      }),
      { numRuns: runs(40) },
    );
  });

  it("is named, or its partner is, when a small change breaks a rule", () => {
    let broken = 0;
    fc.assert(
      fc.property(smallMutations(screen), ({ path, document }) => {
        const findings = findingsOf(document);
        if (findings.length === 0) return;
        broken += 1;
        const isNamed = findings.some(
          (finding) =>
            isNear(finding.place.pointer, pointerOf(path)) ||
            isPartner(finding.place.pointer, path, document) ||
            saysItsChannel(finding.words, path, document),
        );
        expect(
          isNamed,
          `${pointerOf(path)}: ${findings.map(({ code, place }) => `${code} ${place.pointer}`).join(", ")}`,
        ).toBe(true);
      }),
      { numRuns: runs(100) },
    );
    expect(broken).toBeGreaterThan(40);
  });
});

/** One of the two places lies at or below the other. */
function isNear(a: string, b: string): boolean {
  return a === b || a.startsWith(`${b}/`) || b.startsWith(`${a}/`);
}

/** The item in which a finding lies refers to the changed item, or both refer to one thing. */
function isPartner(pointer: string, path: Path, document: unknown): boolean {
  const ids = (itemPath: Path, from: unknown) => new Set(textsOf(at(from, itemPath)));
  const [list, index] = pointerParts(pointer);
  const own: Path = path.slice(0, 2);
  const theirs: Path = list === undefined ? [] : index === undefined ? [list] : [list, index];
  const mine = new Set([...ids(own, screen), ...ids(own, document)]);
  return [...ids(theirs, document)].some((text) => mine.has(text));
}

/** The finding's words name a program channel that the changed loudspeaker or output plays. */
function saysItsChannel(words: string, path: Path, document: unknown): boolean {
  const item = at(document, path.slice(0, 2)) as { readonly id?: string };
  const { outputs, channels } = document as Configuration;
  return outputs
    .filter(
      ({ id, feeds }) => id === item.id || (feeds.kind === "loudspeaker" && feeds.loudspeakerId === item.id),
    )
    .flatMap(({ mix }) => mix.map(({ channelId }) => channels.find(({ id }) => id === channelId)))
    .some((channel) => channel !== undefined && words.includes(CHANNELS[channel.label].name));
}

function textsOf(value: unknown): readonly string[] {
  if (typeof value === "string") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(textsOf) : [];
}
