import { describe, expect, it } from "vitest";
import type { Configuration, Proof } from "../../src/model/index.ts";
import type { GivenUp } from "../../src/proof/index.ts";
import { changed, type Draft, item, large, proveSamples } from "./samples.ts";

type Plant = (draft: Draft<Configuration>) => void;

interface Decision {
  readonly what: string;
  readonly givenUp: readonly GivenUp[];
  readonly plant: Plant;
  readonly verdict: "changed-by-decision" | "left-out";
  /** Something else at the same place. */
  readonly other: Plant;
}

const recall = (draft: Draft<Configuration>, id: string, presetId: string) => {
  item(draft.automation, id).action = { kind: "recall-preset", presetId };
};
const remove = (draft: Draft<Configuration>, id: string) => {
  draft.automation = draft.automation.filter((one) => one.id !== id);
};

const DECISIONS: readonly Decision[] = [
  {
    what: "an automation item that recalls another preset",
    givenUp: [
      {
        kind: "setting",
        setting: "automation",
        automationId: "contact-3",
        decided: { kind: "recall-preset", presetId: "feature-51" },
      },
    ],
    plant: (draft) => recall(draft, "contact-3", "feature-51"),
    verdict: "changed-by-decision",
    other: (draft) => recall(draft, "contact-3", "music"),
  },
  {
    what: "an automation item that is left out",
    givenUp: [{ kind: "setting", setting: "automation", automationId: "contact-3", decided: null }],
    plant: (draft) => remove(draft, "contact-3"),
    verdict: "left-out",
    other: (draft) => remove(draft, "contact-2"),
  },
  {
    what: "what an automation item sets the fader to",
    givenUp: [{ kind: "setting", setting: "fader", automationId: "network-fader-low", decided: 70 }],
    plant: (draft) => {
      item(draft.automation, "network-fader-low").action = { kind: "set-fader", faderMark: 70 };
    },
    verdict: "changed-by-decision",
    other: (draft) => {
      item(draft.automation, "network-fader-low").action = { kind: "set-fader", faderMark: 75 };
    },
  },
  {
    what: "another slot",
    givenUp: [{ kind: "setting", setting: "slot", presetId: "music", decided: 30 }],
    plant: (draft) => {
      item(draft.presets, "music").slot = 30;
    },
    verdict: "changed-by-decision",
    other: (draft) => {
      item(draft.presets, "music").slot = 29;
    },
  },
  {
    what: "another preset at start-up",
    givenUp: [{ kind: "setting", setting: "start-preset", decided: "feature-71" }],
    plant: (draft) => {
      draft.operation.startPresetId = "feature-71";
    },
    verdict: "changed-by-decision",
    other: (draft) => {
      draft.operation.startPresetId = "music";
    },
  },
  {
    what: "no preset at start-up",
    givenUp: [{ kind: "setting", setting: "start-preset", decided: null }],
    plant: (draft) => {
      delete draft.operation.startPresetId;
    },
    verdict: "left-out",
    other: (draft) => {
      draft.operation.startPresetId = "music";
    },
  },
  {
    what: "no music between shows",
    givenUp: [{ kind: "setting", setting: "non-sync", decided: null }],
    plant: (draft) => {
      delete draft.operation.nonSync;
    },
    verdict: "left-out",
    other: (draft) => {
      draft.operation.nonSync!.presetId = "feature-51";
    },
  },
];

const verdicts = ({ settings }: Proof) => settings.map(({ verdict }) => verdict);

describe.each(DECISIONS)("decided: $what", ({ givenUp, plant, verdict, other }) => {
  it("counts as decided with the decided value, and as a fault without the decision", () => {
    const after = changed(large, plant);
    expect(proveSamples(large, after).verdict).toBe("differs");
    const proof = proveSamples(large, after, { givenUp });
    expect(proof.verdict).toBe("equal");
    expect(verdicts(proof)).toEqual([verdict]);
  });

  it("excuses no other value, and not that nothing was done", () => {
    expect(proveSamples(large, changed(large, other), { givenUp }).verdict).toBe("differs");
    expect(proveSamples(large, large, { givenUp }).verdict).toBe("differs");
  });
});
