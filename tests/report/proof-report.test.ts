import { describe, expect, it } from "vitest";
import type { Configuration } from "../../src/model/index.ts";
import { CAUTIONS, proofReport, renderHtml, renderMarkdown, renderText } from "../../src/report/index.ts";
import { changed, item, large, proveSamples, readSample } from "../proof/samples.ts";
import { expectGolden } from "./golden.ts";

const asFound = readSample<Configuration>("visits", "lantern-mill", "screen-1-autumn.json");

/** A swap as it should not be: a preset left out by decision, another without one, a limiter gone, a way turned over. */
const botched = changed(large, (draft) => {
  draft.presets = draft.presets.filter(({ id }) => id !== "archive-mono" && id !== "music");
  item(draft.outputs, "center-hf").polarity = "inverted";
  delete item(draft.outputs, "right-hf").limiter;
  item(draft.outputs, "left-lf").gainDb += 0.2;
  for (const preset of draft.presets) preset.delayMs += 2;
});

const proofs = {
  equal: proveSamples(large, large),
  "as-found": proveSamples(large, asFound),
  botched: proveSamples(large, botched, { givenUp: [{ kind: "preset", presetId: "archive-mono" }] }),
};

describe("the report of a proof", () => {
  it.each(Object.entries(proofs))("reads as it should: %s", (name, proof) => {
    expectGolden(`proof/${name}.txt`, renderText(proofReport(proof)));
  });

  it.each([40, 60, 80])("is not wider than %d columns and holds the cautions", (columns) => {
    for (const proof of Object.values(proofs)) {
      const text = renderText(proofReport(proof), { columns });
      expect(Math.max(...text.split("\n").map((line) => [...line].length))).toBeLessThanOrEqual(columns);
      for (const { words } of CAUTIONS)
        expect(text.replace(/[\s┃!]+/g, " ")).toContain(words.split(" ").slice(0, 4).join(" "));
    }
  });

  it("tells only so many groups of paths and says how many are left", () => {
    const other = readSample<Configuration>("screens", "copper-heron", "screen-1.json");
    const report = proofReport(proveSamples(large, other), { groupsShown: 3 });
    const paths = report.blocks.findIndex(
      (block) => block.kind === "heading" && block.text === "Paths that differ",
    );
    const list = report.blocks[paths + 1]!;
    expect(list.kind === "list" && list.items).toHaveLength(3);
    expect(renderText(report)).toMatch(/\d+ more groups with \d+ paths deviate less/);
  });

  it("says first that connectors were not compared, also where everything that was compared is equal", () => {
    const elsewhere = changed(large, (draft) => {
      draft.unit.profileId = "skarn-36";
    });
    const proof = proveSamples(large, elsewhere);
    expect(proof.connectors.every(({ verdict }) => verdict === "unknown")).toBe(true);
    const [lead] = proofReport(proof).blocks;
    expect(lead!.kind === "paragraph" && lead!.text).toMatch(/Connectors were not compared/);
    const [same] = proofReport(proveSamples(large, large)).blocks;
    expect(same!.kind === "paragraph" && same!.text).not.toMatch(/Connectors/);
  });

  it("holds nothing that a label could put in as markup", () => {
    const evil = changed(large, ({ presets, loudspeakers }) => {
      presets[0]!.label = "<b>x</b>\u001b[31m";
      loudspeakers[0]!.label = "**x** [a](b)";
    });
    const report = proofReport(proveSamples(evil, evil));
    expect(renderHtml(report)).not.toContain("<b>x");
    expect(renderText(report)).not.toContain("\u001b");
    expect(renderMarkdown(report)).not.toContain("**x** [a](b)");
  });
});
