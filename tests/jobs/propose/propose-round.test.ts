import { describe, expect, it } from "vitest";
import house from "../../../samples/standards/house-71-1.1.0.json" with { type: "json" };
import { BoothkeepError } from "../../../src/base/errors/index.ts";
import { compileStandard } from "../../../src/fleet/standard/index.ts";
import {
  fleetScreen,
  type ProposalStore,
  type ProposedConfiguration,
  proposalRound,
  proposeRound,
} from "../../../src/jobs/index.ts";
import type { Configuration, Standard } from "../../../src/model/index.ts";
import { asLeft, changed, profile } from "../../logbook/restore/documents.ts";

const standard = house as unknown as Standard;
const round = proposalRound(compileStandard(standard));
const screenNamed = (screenId: string) =>
  changed(asLeft, ({ screen }) => {
    screen.screenId = screenId;
  });
const placeOf = (configuration: Configuration, followed?: Standard) => ({
  where: `${configuration.screen.screenId}.json`,
  read: async () => ({ ...fleetScreen(configuration), followed: () => followed }),
});
const profileOf = async () => profile;

function memory(full = false) {
  const kept = new Map<string, ProposedConfiguration>();
  const store: ProposalStore = {
    earlier: async ({ name }) => {
      const proposal = kept.get(name)?.proposal;
      return proposal && { proposal, file: `${name}.proposal.json` };
    },
    keep: ({ name }, proposed) => {
      if (full) throw new BoothkeepError("output.no-space", "The disk is full.", { next: "Make room." });
      kept.set(name, proposed);
    },
  };
  return { kept, store };
}

describe("a round of proposals", () => {
  it("goes on where it was, and refuses a screen that changed since", async () => {
    const { kept, store } = memory();
    const places = [placeOf(screenNamed("a")), placeOf(screenNamed("b"))];
    const first = await proposeRound(round, places, { store, profileOf });
    expect([...kept.keys()]).toEqual([`${asLeft.screen.siteId}/a`, `${asLeft.screen.siteId}/b`]);
    const second = await proposeRound(round, places, { store, profileOf });
    expect(second.proposals).toEqual(first.proposals);
    const moved = changed(screenNamed("a"), ({ outputs }) => {
      outputs[0]!.gainDb += 1;
    });
    const { failures, proposals } = await proposeRound(round, [placeOf(moved), places[1]!], {
      store,
      profileOf,
    });
    expect(failures.map(({ code, place }) => [code, place.file])).toEqual([
      ["output.exists", `${asLeft.screen.siteId}/a.proposal.json`],
    ]);
    expect(proposals).toHaveLength(1);
  });

  it("names a screen that is there twice, and those that follow another version than is likely meant", async () => {
    const later = { ...standard, version: "2.0.0" };
    const reworded = { ...standard, title: "Other" };
    const { failures, odd } = await proposeRound(
      round,
      [
        placeOf(screenNamed("a"), later),
        placeOf(screenNamed("a")),
        placeOf(screenNamed("b"), reworded),
        placeOf(screenNamed("c"), standard),
      ],
      { store: memory().store, profileOf },
    );
    expect(failures.map(({ message }) => message)).toEqual([
      `The screen ${asLeft.screen.siteId}/a was named twice.`,
    ]);
    expect(odd).toEqual({
      later: [`${asLeft.screen.siteId}/a`],
      changed: [`${asLeft.screen.siteId}/b`],
    });
  });

  it("stops where nothing more can be kept, and when it is ended", async () => {
    const places = [placeOf(screenNamed("a")), placeOf(screenNamed("b"))];
    await expect(proposeRound(round, places, { store: memory(true).store, profileOf })).rejects.toMatchObject(
      { code: "output.no-space" },
    );
    const ending = new AbortController();
    const { kept, store } = memory();
    await expect(
      proposeRound(round, places, {
        store,
        profileOf,
        signal: ending.signal,
        onDone: () => ending.abort(new Error("enough")),
      }),
    ).rejects.toThrow("enough");
    expect(kept.size).toBe(1);
  });

  it("refuses decisions and a followed version of another standard", () => {
    const other = compileStandard({ ...standard, id: "other" });
    const names = { followed: "old.json" };
    expect(() => proposalRound(round.standard, { followed: other, names })).toThrow(
      "'old.json' is a version of 'other'.",
    );
  });
});
