import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { unfoundedAccounts } from "../../../../src/migrate/plan/check/unfounded-accounts.ts";
import {
  type Configuration,
  migrateScreen,
  type Plan,
  type UnitProfile,
} from "../../../../src/public/boothkeep.ts";
import type { Draft } from "../../../proof/samples.ts";
import { runs } from "../../../runs.ts";
import { configurations, oldProfiles, profiles } from "../arbitraries.ts";
import { decide } from "../decide.ts";
import { ANSWERS, decisionsWith, NEW_UNIT, OLD_UNIT, SCREEN } from "../example.ts";

describe("the accounts of a decided plan", () => {
  it("are borne out by the two documents, whatever was decided", () => {
    const cases = fc.record({
      old: configurations,
      from: oldProfiles,
      to: profiles("new"),
      pick: fc.nat({ max: 50 }),
    });
    fc.assert(
      fc.property(cases, ({ old, from, to, pick }) => {
        expect(unfoundedAccounts(decide(old, from, to, pick), old)).toEqual([]);
      }),
      { numRuns: runs(10, 150) },
    );
  });
});

describe("a fault in the new configuration that no path shows", () => {
  const units: { readonly from: UnitProfile; readonly to: UnitProfile } = { from: OLD_UNIT, to: NEW_UNIT };
  const { plan } = migrateScreen(SCREEN, {
    ...units,
    decisions: { ...decisionsWith(ANSWERS), effort: "quick" },
  });
  const faulty = (plant: (draft: Draft<Configuration>) => void): readonly string[] => {
    const configuration = structuredClone(plan.configuration) as Draft<Configuration>;
    plant(configuration);
    return unfoundedAccounts({ ...plan, configuration } as Plan, SCREEN);
  };

  it("is there for no plan of ours", () => {
    expect(faulty(() => {})).toEqual([]);
  });

  it.each<[string, (draft: Draft<Configuration>) => void]>([
    ["presets/feature", (draft) => draft.presets.shift()],
    ["automation/start", (draft) => draft.automation.pop()],
    [
      "automation/start/action/presetId",
      (draft) => {
        draft.automation[0]!.action = { kind: "recall-preset", presetId: "talk" };
      },
    ],
    [
      "operation/startPresetId",
      (draft) => {
        draft.operation.startPresetId = "talk";
      },
    ],
    [
      "sources/server/channels/server-1/carries",
      (draft) => {
        draft.sources[0]!.channels[0]!.carries = "R";
      },
    ],
    [
      "presets/feature/format",
      (draft) => {
        draft.presets[0]!.format = "mono";
      },
    ],
    [
      "loudspeakers/left/ways/hf/safeHighPassHz",
      (draft) => {
        delete draft.loudspeakers[0]!.ways[1]!.safeHighPassHz;
      },
    ],
    [
      "automation/again",
      (draft) => {
        draft.automation.push({ ...draft.automation[0]!, id: "again" });
      },
    ],
  ])("is told: %s", (place, plant) => {
    expect(faulty(plant).join(" ")).toContain(place);
  });

  it("is told where items account for a value twice or not at all, or keep it waiting", () => {
    const [first, ...others] = plan.items;
    const told = (items: Plan["items"]) => unfoundedAccounts({ ...plan, items }, SCREEN).join(" ");
    expect(told(others)).toContain("belong to no item");
    expect(told([first!, { ...first!, id: "again" }, ...others])).toContain("belong to several items");
    expect(told([{ ...first!, outcome: "asks" }, ...others])).toContain("still wait for a decision");
    expect(told([{ ...first!, outcome: "lost" }, ...others])).toContain("counted otherwise");
  });
});
