import type { Proof, ProofPart, ProofParts } from "../../../model/index.ts";
import { counted, printDb, printMs, printNumber } from "../../../words/index.ts";
import type { Table } from "../../document.ts";

const PART_WORDS: Readonly<Record<keyof ProofParts, string>> = {
  same: "The same",
  changedByDecision: "Changed by decision",
  leftOut: "Left out by decision",
  undecided: "Differs, not decided",
};

/** What a proof comes to in a few sentences, with what it could not see. Only what somebody decided may differ. */
export function headline(proof: Proof): string {
  const unseen = proof.connectors.some(({ verdict }) => verdict === "unknown");
  return unseen
    ? `${whatItComesTo(proof)} Connectors were not compared: nothing says where the cables go on the other model.`
    : whatItComesTo(proof);
}

function whatItComesTo({ verdict, parts, counts, connectors }: Proof): string {
  if (verdict === "differs") {
    const exchanged = connectors.filter((connector) => connector.verdict === "changed").length;
    if (exchanged > 0) {
      const others = amount(parts.undecided) > 0 ? ", and more differs" : "";
      return `Not proven: ${counted(exchanged, "connector carries", "connectors carry")} something else than before, though no cable is said to move${others}. Read on before anything is loaded.`;
    }
    if (amount(parts.undecided) === 0) {
      return "Not proven: all paths, or those of a preset, are late or early by more than the tolerance. Read on before anything is loaded.";
    }
    return "Not proven: something is audible, missing or new, or a setting is not what it was or was decided to be. Read on before anything is loaded.";
  }
  const within = verdict === "within-tolerance" ? ", every difference within the tolerances" : "";
  if (amount(parts.changedByDecision) + amount(parts.leftOut) === 0) {
    return verdict === "equal"
      ? "Every path is the same: nothing that plays, limits, mutes or recalls has changed."
      : `Every path sounds the same${within}.`;
  }
  const decided = [
    ...(amount(parts.changedByDecision) > 0
      ? [`changed by decision: ${partWords(parts.changedByDecision)}`]
      : []),
    ...(amount(parts.leftOut) > 0 ? [`left out by decision: ${partWords(parts.leftOut)}`] : []),
  ].join("; ");
  const same =
    parts.same.paths === 0
      ? "No path sounds as before by itself"
      : `${parts.same.paths} of ${counts.paths} paths sound the same${within}`;
  return `${same}. ${capitalized(decided)}. Nothing else differs.`;
}

/** How many things of any kind. */
function amount({ paths, sums, settings }: ProofPart): number {
  return paths + sums + settings;
}

function partWords({ paths, settings, sums }: ProofPart): string {
  const parts = [
    ...(paths > 0 ? [counted(paths, "path")] : []),
    ...(settings > 0 ? [counted(settings, "setting")] : []),
    ...(sums > 0 ? [counted(sums, "sum of ways", "sums of ways")] : []),
  ];
  return parts.join(", ");
}

function capitalized(words: string): string {
  return words.replace(/^./, (first) => first.toUpperCase());
}

/** The parts as a table that adds up; the last part only where something is in it. */
export function partsTable({ parts }: Proof): Table {
  const names = Object.keys(PART_WORDS) as (keyof ProofParts)[];
  const shown = names.filter((name) => name !== "undecided" || amount(parts[name]) > 0);
  const total = (key: "paths" | "sums" | "settings") =>
    String(names.reduce((sum, name) => sum + parts[name][key], 0));
  return {
    kind: "table",
    caption: "Summary: each path, each sum of a loudspeaker's ways and each setting counts once",
    rowNames: true,
    columns: [
      { header: "" },
      { header: "Paths", align: "end" },
      { header: "Sums", align: "end" },
      { header: "Settings", align: "end" },
      { header: "Largest difference" },
    ],
    rows: [
      ...shown.map((name) => {
        const { paths, sums, settings } = parts[name];
        const difference = name === "leftOut" ? "" : largestWords(parts[name]);
        return [PART_WORDS[name], String(paths), String(sums), String(settings), difference];
      }),
      ["All", total("paths"), total("sums"), total("settings"), ""],
    ],
  };
}

function largestWords({ largestDb, largestPhaseDeg, largestDelayMs }: ProofPart): string {
  const parts = [
    ...(largestDb > 0 ? [printDb(largestDb, 2)] : []),
    ...(largestPhaseDeg > 0 ? [`${printNumber(largestPhaseDeg, 0)}°`] : []),
    ...(largestDelayMs > 0 ? [printMs(largestDelayMs, 3)] : []),
  ];
  return parts.length === 0 ? "none" : parts.join(", ");
}
