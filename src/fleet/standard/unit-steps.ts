import {
  type Configuration,
  type FaderAbility,
  type Json,
  placeAt,
  type UnitProfile,
} from "../../model/index.ts";
import {
  faderGrid,
  gridNearest,
  gridStep,
  type LimitedNumber,
  labelFits,
  labelLimits,
  limitedNumbers,
  shortLabel,
} from "../../profile/index.ts";
import { isFaderMark } from "./fader-scale.ts";

/** A value that a standard wants, as the unit can have it. */
export interface Settled {
  readonly value: Json;
  /** `fits`: as wanted; `rounded`: on the nearest step; `beyond`: the unit cannot come within half a step. */
  readonly reach: "fits" | "rounded" | "beyond";
}

/** What a value becomes in the unit. */
export interface Settle {
  (path: readonly string[], value: Json): Settled;
  /** The unit's fader scale, where the unit is known. */
  readonly fader?: FaderAbility;
}

const EXACT_DECIMALS = 1e-9;

/** How values settle in the unit of a configuration; without a profile they stay as they are. */
export function unitSteps(configuration: Configuration, profile: UnitProfile | undefined): Settle {
  if (profile === undefined) return (_path, value) => ({ value, reach: "fits" });
  // Part by part, when the first number of one has to settle: most are never asked for, and equalizers are long.
  const limits = new Map<string, ReadonlyMap<string, LimitedNumber>>();
  const limitedAt = (path: readonly string[]): Limit | undefined => {
    // A mark means the same wherever it stands, also where none stands yet.
    if (isFaderMark(path)) return { grid: faderGrid(profile.fader), tolerance: 0 };
    const [part = ""] = path;
    const own = limits.get(part) ?? limitsOf(onlyPart(configuration, part), profile);
    limits.set(part, own);
    const place = placeAt(configuration, path);
    return place && own.get(place.position.join("/"));
  };
  const labels = labelLimits(profile.labels);
  const settle = (path: readonly string[], value: Json): Settled => {
    if (typeof value === "number") return settledNumber(value, limitedAt(path));
    if (typeof value !== "string" || path.at(-1) !== "label") {
      return { value, reach: "fits" };
    }
    if (path[0] === "channels" || labelFits(value, labels)) return { value, reach: "fits" };
    return { value: shortLabel(value, labels, new Set()) ?? value, reach: "beyond" };
  };
  return Object.assign(settle, { fader: profile.fader });
}

function limitsOf(configuration: Configuration, profile: UnitProfile): ReadonlyMap<string, LimitedNumber> {
  return new Map(limitedNumbers(configuration, profile).map((item) => [item.path.join("/"), item]));
}

/** A configuration whose lists are empty but for one. */
function onlyPart(configuration: Configuration, part: string): Configuration {
  const none = { sources: [], channels: [], equalizations: [], presets: [], outputs: [], automation: [] };
  return Object.hasOwn(none, part)
    ? { ...configuration, ...none, [part]: configuration[part as keyof typeof none] }
    : { ...configuration, ...none };
}

type Limit = Pick<LimitedNumber, "grid" | "tolerance">;

function settledNumber(value: number, limited: Limit | undefined): Settled {
  if (limited === undefined) return { value, reach: "fits" };
  const nearest = gridNearest(limited.grid, value);
  const distance = Math.abs(nearest - value);
  if (distance <= Math.max(limited.tolerance, EXACT_DECIMALS)) return { value, reach: "fits" };
  const step = gridStep(limited.grid, nearest);
  return { value: nearest, reach: distance > step / 2 + limited.tolerance ? "beyond" : "rounded" };
}
