import { describe, expect, it } from "vitest";
import { findingsOf, screen } from "./rule-book-screen.ts";

/** The channels named as apart, when one screen loudspeaker is moved. */
function apartWhenMoved(loudspeakerId: string, distanceM: number): readonly string[] {
  const loudspeakers = screen.loudspeakers.map((item) =>
    item.id === loudspeakerId ? { ...item, distanceM } : item,
  );
  return findingsOf({ ...screen, loudspeakers })
    .filter(({ code }) => code === "time/screen-apart")
    .map(({ place }) => screen.channels[Number(place.pointer.split("/")[2])]!.id);
}

describe("screen channels that do not arrive together", () => {
  it("are told at the one that is late", () => {
    expect(apartWhenMoved("screen-center", 17)).toEqual(["C"]);
  });

  it("are told at the one that comes before all others, once", () => {
    expect(apartWhenMoved("screen-center", 11)).toEqual(["C"]);
    expect(apartWhenMoved("screen-left", 11)).toEqual(["L"]);
  });

  it("are not told within the limit", () => {
    expect(apartWhenMoved("screen-center", 14)).toEqual([]);
  });
});
