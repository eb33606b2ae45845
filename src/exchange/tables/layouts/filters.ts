import { choice, number, optional, type TableColumn, yesNo } from "./layout.ts";

/** The kinds of parametric filter of the configuration schema; a test holds them against it. */
const KINDS = [
  "peaking",
  "low-shelf",
  "high-shelf",
  "high-pass",
  "low-pass",
  "band-pass",
  "notch",
  "all-pass",
] as const;

/** What a row says of one parametric filter; a kind that lacks a value leaves its cell empty. */
export const FILTER_COLUMNS: readonly TableColumn[] = [
  choice("kind", KINDS),
  yesNo("enabled", true),
  number("frequencyHz"),
  optional(number("gainDb")),
  optional(number("q")),
  optional(number("slope")),
  optional(number("order")),
];

const FAMILIES = ["butterworth", "bessel", "linkwitz-riley"] as const;

/** What a row says of one high-pass or low-pass. */
export function crossoverColumns(member: "highPass" | "lowPass"): readonly TableColumn[] {
  return [
    optional(choice(`${member}.family`, FAMILIES)),
    number(`${member}.order`),
    number(`${member}.frequencyHz`),
    optional(choice(`${member}.normalization`, ["phase", "magnitude"])),
  ];
}
