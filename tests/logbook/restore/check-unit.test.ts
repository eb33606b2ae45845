import { describe, expect, it } from "vitest";
import { checkUnit, configurationToLoad, type UnitAtHand } from "../../../src/logbook/restore/index.ts";
import { asLeft, changed, otherProfile, profile } from "./documents.ts";

const same: UnitAtHand = { profile, serial: asLeft.unit.serial, firmware: asLeft.unit.firmware };

const found = (unit: UnitAtHand, configuration = asLeft) =>
  checkUnit(configuration, unit).map(({ code, severity }) => `${severity} ${code}`);

/** A profile with another range of firmware. */
const holding = (firmwareRange: string) => ({ ...profile, firmwareRange });

describe("the unit at hand", () => {
  it("gives no finding when it is the one that was recorded", () => {
    expect(found(same)).toEqual([]);
  });

  it("must be of the same model", () => {
    expect(found({ ...same, profile: otherProfile })).toEqual(["error restore/other-model"]);
    const [finding] = checkUnit(asLeft, { ...same, profile: otherProfile });
    expect(finding!.remedy).toContain("boothkeep migrate");
    expect(finding!.words).toContain(otherProfile.label);
  });

  it("may have another revision of its profile, which is told", () => {
    expect(found({ ...same, profile: { ...profile, revision: "99.0.0" } })).toEqual([
      "advice restore/other-profile-revision",
    ]);
  });

  it("must have the sample rate", () => {
    const odd = changed(asLeft, ({ unit }) => {
      unit.sampleRateHz = 44_100;
    });
    expect(found({ ...same, profile: { ...profile, sampleRatesHz: [48_000] } }, odd)).toEqual([
      "error restore/sample-rate",
    ]);
  });

  // Semantic Versioning 2.0.0, section 11 (precedence); ranges as npm reads them.
  it.each([
    [">=2.0.0 <3.0.0", "2.9.9", []],
    [">=2.0.0 <3.0.0", "3.0.0", ["error restore/firmware-outside-range"]],
    [">=2.0.0 <3.0.0", "1.10.0", ["error restore/firmware-outside-range"]],
    ["2.4.x", "2.4.17", []],
    ["2.4.x", "2.40.0", ["error restore/firmware-outside-range"]],
    [">=2.0.0", "not a version", ["error restore/firmware-outside-range"]],
  ])("of a profile that holds for %s runs %s", (range, firmware, expected) => {
    const recorded = changed(asLeft, ({ unit }) => {
      unit.firmware = firmware;
    });
    expect(found({ profile: holding(range), serial: recorded.unit.serial, firmware }, recorded)).toEqual(
      expected,
    );
  });

  it("with other firmware inside the range is told, and so is firmware that nobody read off", () => {
    const wide = holding(">=0.0.0");
    expect(found({ ...same, profile: wide, firmware: "99.1.2" })).toEqual(["advice restore/other-firmware"]);
    expect(found({ profile: wide, serial: asLeft.unit.serial })).toEqual([
      "warning restore/firmware-unknown",
    ]);
    expect(found({ profile: holding("<0.0.1"), serial: asLeft.unit.serial })).toEqual([
      "error restore/firmware-outside-range",
      "warning restore/firmware-unknown",
    ]);
  });

  it("with another serial number is expected after a swap, and told", () => {
    expect(found({ ...same, serial: "S-NEW" })).toEqual(["advice restore/other-serial"]);
    expect(found({ profile, firmware: asLeft.unit.firmware })).toEqual(["warning restore/serial-unknown"]);
  });
});

describe("the configuration to load", () => {
  it("carries the serial number and firmware of the unit at hand, and nothing else changes", () => {
    const unit = { profile, serial: "S-NEW", firmware: "2.5.0" };
    const toLoad = configurationToLoad(asLeft, unit);
    expect(toLoad.unit).toEqual({ ...asLeft.unit, serial: "S-NEW", firmware: "2.5.0" });
    expect({ ...toLoad, unit: asLeft.unit }).toEqual(asLeft);
    expect(configurationToLoad(asLeft, { profile })).toEqual(asLeft);
    expect(checkUnit(toLoad, unit).filter(({ code }) => code === "restore/other-serial")).toEqual([]);
  });
});
