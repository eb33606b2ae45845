import { describe, expect, it } from "vitest";
import { printDb, printDbChange, printHz, printMetres, printMs, printNumber } from "../../src/words/index.ts";

describe("printing", () => {
  it("prints numbers with their unit and a true minus sign", () => {
    expect(printDb(-3.04)).toBe("−3.0 dB");
    expect(printDb(-0.01)).toBe("0.0 dB");
    expect(printDbChange(1.25, 2)).toBe("+1.25 dB");
    expect(printDbChange(0.001)).toBe("0.0 dB");
    expect(printNumber(Number.NEGATIVE_INFINITY, 1)).toBe("−∞");
    expect(printNumber(Number.NaN, 1)).toBe("–");
    expect([31.5, 630, 999.96, 1250, 16_000].map(printHz)).toEqual([
      "31.5 Hz",
      "630 Hz",
      "1 kHz",
      "1.25 kHz",
      "16 kHz",
    ]);
    expect(printMs(12.5)).toBe("12.50 ms");
    expect(printMetres(4.294)).toBe("4.29 m");
  });
});
