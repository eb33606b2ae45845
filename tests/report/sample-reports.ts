import { readFileSync } from "node:fs";
import { join } from "node:path";
import { acousticResponses } from "../../src/acoustics/index.ts";
import { compareConfigurations, compareVisit } from "../../src/diff/compare/index.ts";
import type { UnitProfile } from "../../src/model/index.ts";
import { comparisonReport, handoverSheet, type ReportDocument, visitReport } from "../../src/report/index.ts";
import { channelName } from "../../src/words/index.ts";
import { asFound, asLeft, screens } from "../diff/changes/samples.ts";
import { type Draft, edited, item } from "../diff/compare/edited.ts";

/** What was left after the autumn visit: the crossover set back, a crossing mended. */
const asLeftAgain = edited((draft: Draft) => {
  item(draft.outputs, "left-hf").highPass.frequencyHz = 1600;
  item(draft.presets, "event-51").routing.pop();
}, asFound);

const origin = { before: "as left, 2026-03-17, North team", after: "as found, 2026-11-20, North team" };
const [first, second, third] = ["1", "2", "3"].map((digit) => digit.repeat(64)) as [string, string, string];

const found = compareVisit(
  { asLeft, asFound, standard: screens[2]! },
  { curves: true, before: { sha256: first }, after: { sha256: second } },
);

export const shortComparison: ReportDocument = comparisonReport(compareConfigurations(asLeft, asFound), {
  detail: "short",
  origin,
  raw: true,
});

export const nothingChanged: ReportDocument = comparisonReport(compareConfigurations(asLeft, asLeft), {
  detail: "short",
  origin,
});

export const fullComparison: ReportDocument = comparisonReport(
  compareConfigurations(asLeft, asLeftAgain, {
    curves: true,
    before: { sha256: first },
    after: { sha256: third },
  }),
  { detail: "full", origin, configurations: { before: asLeft, after: asLeftAgain } },
);

/** Two screens with little in common: many findings, whole EQ sets aligned anew, routing that differs. */
export const distantComparison: ReportDocument = comparisonReport(
  compareConfigurations(asLeft, screens[3]!, { curves: true }),
  { detail: "full", origin, configurations: { before: asLeft, after: screens[3]! } },
);

export const visit: ReportDocument = visitReport({
  date: "2026-11-20",
  by: "North team",
  found,
  done: compareConfigurations(asFound, asLeftAgain, { curves: true, after: { sha256: third } }),
  notes:
    "The hf driver of screen left was at risk: crossover set back.\nThe center EQ stays until it is measured.",
  asLeftBefore: asLeft,
  asFound,
  asLeft: asLeftAgain,
});

const profile = JSON.parse(
  readFileSync(
    join(import.meta.dirname, "..", "..", "samples", "profiles", `${asLeft.unit.profileId}.json`),
    "utf8",
  ),
) as UnitProfile;

const responses = acousticResponses(asLeft);

export const handover: ReportDocument = handoverSheet(asLeft, {
  profile,
  origin: [
    ["Entry", "as left, 2026-03-17, North team"],
    ["SHA-256", first],
    ["Checked", "valid for the unit, no findings"],
  ],
  equalizers: asLeft.equalizations.slice(0, 1).map(({ id, label, channels }) => ({
    set: label,
    curves: channels.map(({ channelId }) => ({
      channel: channelName(asLeft, channelId),
      frequenciesHz: [...responses.axis.frequenciesHz],
      levelsDb: [...responses.equalizations.get(id)!.get(channelId)!.magnitudeDb],
    })),
  })),
  notes: "Every way checked alone at low level.",
});
