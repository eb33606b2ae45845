import type { Connector } from "../../../src/model/index.ts";

type Shared = Pick<Connector, "direction" | "kind" | "style"> & Partial<Pick<Connector, "wiring">>;

export interface ConnectorGroup extends Shared {
  /** As printed: "OUTPUTS A". */
  readonly group: string;
  /** Order of the group along the rear panel, from 1. */
  readonly rack: number;
  /** How many circuits the group carries. */
  readonly count: number;
  /** Start of the ids: "out" gives "out-01". */
  readonly id: string;
  /** Start of the printed labels: "OUT" gives "OUT 1". */
  readonly label: string;
  /** Number of the first circuit, where a series runs over several groups. */
  readonly from?: number;
  /** AES3 and S/PDIF: circuits 1 and 2 share a line, 3 and 4 the next. */
  readonly lines?: string;
}

/** The circuits of one physical connector or block. */
export function connectorGroup(description: ConnectorGroup): Connector[] {
  const { group, rack, count, id, label, from = 1, lines, ...shared } = description;
  return Array.from({ length: count }, (_, index) => {
    const number = from + index;
    return {
      id: `${id}-${String(number).padStart(2, "0")}`,
      label: `${label} ${number}`,
      ...shared,
      group,
      position: index + 1,
      rack,
      ...(lines === undefined ? {} : lineOf(lines, number)),
    };
  });
}

function lineOf(lines: string, number: number): Pick<Connector, "line" | "lineChannel"> {
  const odd = number % 2 === 1;
  const first = odd ? number : number - 1;
  return { line: `${lines} ${first}/${first + 1}`, lineChannel: odd ? 1 : 2 };
}

/** Outputs in equal groups that run on in number: OUT 1-8 on OUTPUTS A, OUT 9-16 on OUTPUTS B. The last may be short. */
export function outputGroups(options: {
  readonly total: number;
  readonly perGroup: number;
  readonly firstRack: number;
  readonly style: Connector["style"];
  readonly wiring?: "aes59-analog";
}): Connector[] {
  const { total, perGroup, firstRack, ...look } = options;
  return Array.from({ length: Math.ceil(total / perGroup) }, (_, group) =>
    connectorGroup({
      ...look,
      group: `OUTPUTS ${String.fromCharCode(65 + group)}`,
      rack: firstRack + group,
      count: Math.min(perGroup, total - group * perGroup),
      from: group * perGroup + 1,
      id: "out",
      label: "OUT",
      direction: "output",
      kind: "analog",
    }),
  ).flat();
}
