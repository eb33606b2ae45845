import type { Proof, SumProof } from "../../../model/index.ts";
import { printDbChange, printHz, printNumber } from "../../../words/index.ts";
import type { Block } from "../../document.ts";
import { PATH_VERDICT_WORDS } from "./words.ts";

/** How the ways of each loudspeaker add up, before and after. */
export function sumBlocks({ sums }: Proof): readonly Block[] {
  if (sums.length === 0) return [];
  const changed = sums.flatMap(({ label, verdict, changeDb, changeAtHz }) =>
    verdict === "equal" || changeDb === undefined || changeAtHz === undefined
      ? []
      : [
          [
            label,
            `the sum changes by up to ${printDbChange(changeDb, 2)} at ${printHz(changeAtHz)}`,
          ] as const,
        ],
  );
  return [
    { kind: "heading", level: 2, text: "Sum of each loudspeaker's ways" },
    {
      kind: "table",
      caption: "With ideal drivers, before and after",
      rowNames: true,
      columns: [
        { header: "Loudspeaker" },
        { header: "Ways" },
        { header: "Cross at" },
        { header: "Ripple, dB", align: "end" },
        { header: "Phase", align: "end" },
        { header: "Sum" },
      ],
      rows: sums.flatMap(sumRows),
    },
    ...(changed.length > 0 ? [{ kind: "facts" as const, pairs: changed }] : []),
  ];
}

function sumRows({ label, verdict, crossovers }: SumProof): string[][] {
  const rows = crossovers.map((crossover) => [
    `${crossover.lowerWayId} to ${crossover.upperWayId}`,
    printHz(crossover.frequencyBeforeHz),
    fromTo(crossover.rippleBeforeDb, crossover.rippleAfterDb, (db) => printNumber(db, 2)),
    fromTo(crossover.phaseBeforeDeg, crossover.phaseAfterDeg, (deg) => `${printNumber(deg, 0)}°`),
  ]);
  const lines = rows.length === 0 ? [["", "", "", ""]] : rows;
  return lines.map((cells, index) => [
    index === 0 ? label : "",
    ...cells,
    index === 0 ? PATH_VERDICT_WORDS[verdict] : "",
  ]);
}

function fromTo(before: number, after: number | undefined, print: (value: number) => string): string {
  if (after === undefined) return `${print(before)}, none`;
  return print(before) === print(after) ? print(before) : `${print(before)}, ${print(after)}`;
}
