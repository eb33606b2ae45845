import { describe, expect, it } from "vitest";
import { printedImprint } from "../../src/logbook/imprint/index.ts";
import { checkUnit, configurationToLoad, confirmReadBack } from "../../src/logbook/restore/index.ts";
import { confirmationReport, renderText, restoreSheet } from "../../src/report/index.ts";
import { asLeft, changed, historyItem, otherProfile, profile } from "../logbook/restore/documents.ts";
import { expectGolden } from "./golden.ts";

const { entry, id } = historyItem(3);
const unit = { profile, serial: "G28-004519", firmware: asLeft.unit.firmware };
const configuration = configurationToLoad(asLeft, unit);
const written = { fileName: "to-load.json", fileSha256: "0123456789abcdef".repeat(4) };

describe("the restore sheet", () => {
  it("reads as it should", () => {
    const findings = checkUnit(asLeft, unit);
    const sheet = restoreSheet({ configuration, profile, entry, entryId: id, findings, ...written });
    expectGolden("restore/sheet.txt", renderText(sheet));
  });

  it("has a box for every output that feeds something, in the order of the rear panel", () => {
    const sheet = restoreSheet({ configuration, profile, entry, entryId: id, findings: [], ...written });
    const table = sheet.blocks.find((block) => block.kind === "table")!;
    expect(table.boxes).toBe(true);
    expect(table.rows).toHaveLength(asLeft.outputs.filter(({ feeds }) => feeds.kind !== "spare").length);
    const racks = table.rows.map(([label]) => profile.connectors.find((item) => item.label === label)!);
    const places = racks.map(({ rack, position }) => rack * 1000 + position);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });

  it("ends with the code by which its entry is found, where there is something to load", async () => {
    const { siteId, screenId, number, configuration: settingsSha256 } = entry;
    const imprint = await printedImprint({ siteId, screenId, entry: { number, id }, settingsSha256 });
    const sheet = restoreSheet({
      configuration,
      profile,
      entry,
      entryId: id,
      findings: [],
      ...written,
      imprint,
    });
    expect(sheet.blocks.at(-1)).toMatchObject({ kind: "scan-code", text: imprint.text });
    expect(sheet.footer).toContain(`entry ${number}`);
    const refused = restoreSheet({ configuration, profile, entry, entryId: id, findings: [], imprint });
    expect(refused.blocks.some(({ kind }) => kind === "scan-code")).toBe(false);
  });

  it("says plainly that nothing was written, and gives no steps", () => {
    const findings = checkUnit(asLeft, { profile: otherProfile });
    const text = renderText(
      restoreSheet({ configuration: asLeft, profile: otherProfile, entry, entryId: id, findings }),
    );
    expect(text).toContain("No file was written");
    expect(text).not.toContain("Load '");
    expectGolden("restore/refused.txt", text);
  });
});

describe("the report of a read-back", () => {
  it("reads as it should", () => {
    const readBack = changed(configuration, (draft) => {
      draft.outputs[0]!.gainDb += 0.03;
      delete draft.outputs[1]!.limiter;
      draft.outputs[2]!.highPass!.frequencyHz = 1000;
      draft.presets[0]!.delayMs += 1;
      delete draft.calibration;
    });
    const confirmation = confirmReadBack(configuration, readBack, { profile, entryId: id });
    expectGolden("restore/read-back-differs.txt", renderText(confirmationReport(confirmation)));
  });

  it("says so when everything is there", () => {
    const confirmation = confirmReadBack(configuration, configuration, { profile });
    expectGolden("restore/read-back-equal.txt", renderText(confirmationReport(confirmation)));
  });

  it("lists only so many numbers within steps", () => {
    const readBack = changed(configuration, ({ outputs }) => {
      for (const output of outputs) output.gainDb += 0.01;
    });
    const report = confirmationReport(confirmReadBack(configuration, readBack, { profile }), {
      withinStepsShown: 2,
    });
    const table = report.blocks.find((block) => block.kind === "table")!;
    expect(table.rows).toHaveLength(2);
    expect(renderText(report)).toContain(`${configuration.outputs.length - 2} more are equal`);
  });
});
