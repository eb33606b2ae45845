import { describe, expect, it } from "vitest";
import type { Finding, Severity } from "../../../src/base/findings/index.ts";
import { restoreRefusals } from "../../../src/logbook/restore/index.ts";

function finding(code: string, severity: Severity): Finding {
  return { code, severity, kind: "record", place: { pointer: "", words: "Unit" }, words: "…", numbers: {} };
}

const codes = (findings: readonly Finding[], accepted: readonly string[] = []) =>
  restoreRefusals(findings, accepted).map(({ code }) => code);

describe("what forbids to load", () => {
  it("is every error and nothing less", () => {
    const findings = [
      finding("restore/other-serial", "advice"),
      finding("restore/firmware-unknown", "warning"),
      finding("restore/firmware-outside-range", "error"),
    ];
    expect(codes(findings)).toEqual(["restore/firmware-outside-range"]);
  });

  it("can be overruled by name where a person may know better", () => {
    const findings = [
      finding("restore/firmware-outside-range", "error"),
      finding("restore/entry-withdrawn", "error"),
    ];
    expect(codes(findings, ["restore/entry-withdrawn"])).toEqual(["restore/firmware-outside-range"]);
    expect(codes(findings, ["restore/entry-withdrawn", "restore/firmware-outside-range"])).toEqual([]);
  });

  it("is no damage elsewhere in the logbook: the entry that was chosen verifies", () => {
    expect(codes([finding("logbook/damaged-file", "error")])).toEqual([]);
  });

  it("cannot be overruled when the unit is another model or lacks the sample rate", () => {
    for (const code of ["restore/other-model", "restore/sample-rate"]) {
      expect(codes([finding(code, "error")], [code])).toEqual([code]);
    }
  });
});
