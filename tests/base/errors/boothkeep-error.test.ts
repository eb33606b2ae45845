import { describe, expect, it } from "vitest";
import { BoothkeepError, ERROR_CATALOGUE } from "../../../src/base/errors/index.ts";

describe("BoothkeepError", () => {
  it("carries code, place, next step and exit code", () => {
    const error = new BoothkeepError("input.not-found", "There is no file 'a.json'.", {
      place: { pointer: "/x" },
      next: "Check the name.",
    }).at({ file: "a.json", pointer: "/outer" });
    expect(error.exitCode).toBe(2);
    expect(error.toJSON()).toEqual({
      code: "input.not-found",
      message: "There is no file 'a.json'.",
      place: { file: "a.json", pointer: "/x" },
      next: "Check the name.",
      data: {},
    });
  });

  it("has codes of one shape", () => {
    for (const code of Object.keys(ERROR_CATALOGUE)) expect(code).toMatch(/^[a-z-]+\.[a-z0-9-]+$/);
  });
});
