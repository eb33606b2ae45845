import type { Scalar } from "./conversions/index.ts";

/** A configuration while it is built. Only names of FIELDS ever become members. */
export interface Draft {
  [name: string]: Scalar | Draft | Scalar[] | Draft[];
}

/** Parts of a configuration that may be missing as a whole: no fixed value or default calls them into being. */
export const OPTIONAL_GROUPS = new Set(
  "highPass lowPass limiter fir graphic emergencyMute nonSync paging boothMonitor hearingImpaired narration geometry calibration".split(
    " ",
  ),
);

export function lookUp(draft: Draft, field: string): Scalar | undefined {
  const target = groupOf(draft, field, false);
  const value = target?.group[target.name];
  return typeof value === "object" ? undefined : value;
}

/** The object in which a field stands; made on the way if asked for. */
export function groupOf(
  draft: Draft,
  field: string,
  make: boolean,
): { readonly group: Draft; readonly name: string } | undefined {
  const names = field.split(".");
  let group = draft;
  for (const name of names.slice(0, -1)) {
    if (group[name] === undefined) {
      if (!make) return undefined;
      group[name] = {};
    }
    group = group[name] as Draft;
  }
  return { group, name: names.at(-1)! };
}
