import { describe, expect, it } from "vitest";
import { decodeText } from "../../../src/exchange/fieldmap/encoding.ts";
import { readExport, writeExport } from "../../../src/exchange/fieldmap/index.ts";
import type { Configuration, Output } from "../../../src/model/index.ts";
import { FOREIGN_EXPORTS, foreignScreen } from "./foreign.ts";

const base = foreignScreen();

describe.each(FOREIGN_EXPORTS)("$name", ({ name, bytes, loaded }) => {
  const read = readExport(bytes, loaded, { base });

  it("reads as the same outputs, whatever it looks like", () => {
    const plain = (outputs: readonly Output[]) =>
      outputs.map(({ id, connectorId: _connector, label: _label, delayMs, ...output }) => ({
        ...output,
        number: Number(id.replace(/\D/g, "")),
        delayMs: Math.round(delayMs * 20) / 20,
      }));
    expect(plain(read.configuration.outputs)).toEqual(plain(base.outputs));
  });

  it("accounts for every value", () => {
    expect(read.account.unknown).toEqual([]);
    expect(read.account.counts.used).toBeGreaterThan(100);
  });

  it("goes back to the same bytes", () => {
    const written = writeExport(read.configuration, bytes, loaded);
    expect(Buffer.compare(Buffer.from(written.bytes), bytes)).toBe(0);
  });

  it("changes only the lines that belong to a change, and reads as it was meant", () => {
    const changed = edited(read.configuration);
    const written = writeExport(changed, bytes, loaded);
    const { configuration } = readExport(written.bytes, loaded, { base: changed });
    expect(configuration.outputs).toEqual(changed.outputs);
    const lines = (all: Uint8Array) => decodeText(all, loaded.map.source.encoding).text.split(/\r?\n/);
    const before = lines(bytes);
    const after = lines(written.bytes);
    expect({ name, lines: after.length }).toEqual({ name, lines: before.length });
    const differing = after.filter((line, i) => line !== before[i]);
    expect(differing.length).toBeGreaterThanOrEqual(2);
    expect(differing.length).toBeLessThanOrEqual(8);
  });
});

/** The first output: another high-pass, gain and polarity; the fourth another name. */
function edited(configuration: Configuration): Configuration {
  const outputs = configuration.outputs.map((output, i): Output => {
    if (i === 3) return { ...output, label: "Größer" };
    if (i !== 0) return output;
    return {
      ...output,
      highPass: { family: "linkwitz-riley", order: 4, frequencyHz: 45 },
      gainDb: -4.5,
      polarity: "inverted",
    };
  });
  return { ...configuration, outputs };
}
