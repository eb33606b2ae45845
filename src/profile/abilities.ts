import satisfies from "semver/functions/satisfies.js";
import type {
  Connector,
  ConnectorKind,
  Crossover,
  CrossoverAbility,
  EqBand,
  FilterAbility,
  SourceKind,
  UnitProfile,
} from "../model/index.ts";

/** Why a unit cannot run a crossover filter. */
export type CrossoverObstacle = "family" | "order" | "normalization";

/** Whether a place offers the family, order and (Bessel) normalization of a crossover filter; undefined: it does. */
export function crossoverObstacle(
  ability: CrossoverAbility,
  crossover: Crossover,
): CrossoverObstacle | undefined {
  const family = ability.families.filter((item) => item.family === crossover.family);
  if (family.length === 0) return "family";
  const order = family.filter((item) => item.orders.includes(crossover.order));
  if (order.length === 0) return "order";
  if (crossover.family !== "bessel") return undefined;
  return order.some((item) => (item.normalization ?? crossover.normalization) === crossover.normalization)
    ? undefined
    : "normalization";
}

/** Why a unit cannot run a parametric filter. */
export type FilterObstacle = "kind" | "shelf-by-q" | "shelf-by-slope";

/** Whether a place offers the kind of a parametric filter and the way its shelf is set; undefined: it does. */
export function filterObstacle(ability: FilterAbility, band: EqBand): FilterObstacle | undefined {
  if (!ability.kinds.includes(band.kind)) return "kind";
  if (band.kind !== "low-shelf" && band.kind !== "high-shelf") return undefined;
  const by = band.slope === undefined ? "q" : "slope";
  if (by === (ability.shelfBy ?? "q")) return undefined;
  return by === "q" ? "shelf-by-q" : "shelf-by-slope";
}

/** The kinds of input connector that a kind of source can come in by. */
export const CONNECTORS_OF_SOURCE: Readonly<Record<SourceKind, readonly ConnectorKind[]>> = {
  aes3: ["aes3"],
  aes67: ["aes67"],
  "analog-multichannel": ["analog"],
  spdif: ["spdif"],
  "analog-stereo": ["analog"],
  microphone: ["microphone", "analog"],
};

/** The unit's connectors by id. */
export function connectorsById(profile: UnitProfile): ReadonlyMap<string, Connector> {
  return new Map(profile.connectors.map((connector) => [connector.id, connector]));
}

/** Whether a profile holds for a firmware version (Semantic Versioning 2.0.0 ranges; pre-releases count). */
export function holdsForFirmware(profile: UnitProfile, firmware: string): boolean {
  return satisfies(firmware, profile.firmwareRange, { includePrerelease: true });
}
