import { describe, expect, it } from "vitest";
import before from "../../../samples/standards/house-71-1.0.0.json" with { type: "json" };
import house from "../../../samples/standards/house-71-1.1.0.json" with { type: "json" };
import { canonicalHash } from "../../../src/base/canonical/index.ts";
import { compileStandard } from "../../../src/fleet/standard/index.ts";
import {
  confirmLoading,
  entryToBeLoaded,
  proposalToBeLoaded,
  proposeStandard,
} from "../../../src/jobs/index.ts";
import { history } from "../../../src/logbook/entries/index.ts";
import type { Standard } from "../../../src/model/index.ts";
import { asLeft, changed, profile } from "../../logbook/restore/documents.ts";
import { logbookOf } from "../logbook-of-screens.ts";

const standard = house as unknown as Standard;
const now = { recordedAt: "2026-11-02T23:15:00+01:00", recordedBy: "Service team", profile };
const louder = changed(asLeft, ({ outputs }) => {
  outputs[0]!.gainDb += 1;
});

describe("what was loaded, confirmed", () => {
  it("an entry: counts for the unit of today, and is recorded with what was compared, whatever came out", () => {
    const logbook = logbookOf([asLeft]);
    const swapped = changed(louder, ({ unit }) => {
      unit.serial = "G28-009999";
    });
    const id = history(logbook).items[0]!.id;
    const toBeLoaded = entryToBeLoaded({ id, configuration: asLeft }, swapped);
    expect(toBeLoaded.configuration.unit.serial).toBe("G28-009999");
    const { confirmation, recorded } = confirmLoading(logbook, swapped, toBeLoaded, {
      ...now,
      notes: "Amplifiers off.",
    });
    expect([confirmation.verdict, confirmation.intended.entryId]).toEqual(["differs", id]);
    expect(recorded!.entry.reason).toBe("after-swap");
    expect(recorded!.entry.notes).toBe(
      `Read back after loading: does not hold what was to be loaded: 1 differences (entry ${id}).\nAmplifiers off.`,
    );
    expect(recorded!.entry.attachments!.map(({ name }) => name)).toEqual([
      "to-be-loaded.json",
      "confirmation.json",
      "unit-profile.json",
    ]);
  });

  const { proposal, configuration: proposed } = proposeStandard(asLeft, {
    standard: compileStandard(standard),
    followed: compileStandard(before as unknown as Standard),
    profile,
  });
  const loaded = (readBack = proposed!) => ({ proposal, standard, proposed, readBack });

  it("a standard: counts as applied only where the unit holds what was proposed", () => {
    expect(proposal.outcome).toBe("proposed");
    const logbook = logbookOf([asLeft]);
    const wrong = changed(proposed!, ({ outputs }) => {
      outputs[0]!.gainDb += 1;
    });
    const differs = confirmLoading(logbook, wrong, proposalToBeLoaded(logbook, loaded(wrong)), now);
    expect([differs.confirmation.verdict, differs.recorded]).toEqual(["differs", undefined]);
    const right = confirmLoading(logbook, proposed!, proposalToBeLoaded(logbook, loaded()), now);
    expect(right.recorded!.entry.reason).toBe("standard-applied");
    expect(right.recorded!.entry.attachments!.map(({ name }) => name)).toEqual([
      "standard.json",
      "proposal.json",
      "confirmation.json",
      "unit-profile.json",
    ]);
  });

  it("refuses documents that do not belong together, and says which", () => {
    const logbook = logbookOf([asLeft]);
    const names = { proposal: "p.json", proposed: "c.json", readBack: "r.json" };
    const refused = (change: object) => () => proposalToBeLoaded(logbook, { ...loaded(), names, ...change });
    expect(refused({ proposed: louder })).toThrow(
      expect.objectContaining({ code: "standard.other-standard", place: { file: "c.json" } }),
    );
    expect(refused({ standard: { ...standard, version: "9.0.0" } })).toThrow(/for house-71 1\.1\.0/);
    const elsewhere = changed(proposed!, ({ screen }) => {
      screen.screenId = "screen-9";
    });
    expect(refused({ readBack: elsewhere })).toThrow(
      expect.objectContaining({ code: "standard.wrong-screen", place: { file: "r.json" } }),
    );
    const open = { ...proposal, outcome: "open" as const, configurationSha256: null };
    expect(refused({ proposal: open, proposed: undefined })).toThrow(
      expect.objectContaining({ code: "usage.wrong", place: { file: "p.json" } }),
    );
    expect(canonicalHash(proposed)).toBe(proposal.configurationSha256);
  });
});
