import { samplesFromMs } from "../../../base/units/index.ts";
import {
  type Configuration,
  type DelayAbility,
  type NumberGrid,
  type UnitProfile,
  valueAtPosition,
} from "../../../model/index.ts";
import {
  faderLevelDb,
  gridContains,
  gridNearest,
  type LimitedNumber,
  limitedNumbers,
} from "../../../profile/index.ts";
import { printDb, printHzToKeyIn, printMs, printNumber, printToKeyIn } from "../../../words/index.ts";

/** The members of an object that hold numbers. */
type NumberMember<Holder> = keyof Holder & (string | number);

/** Prints the numbers of one configuration as its unit shows them; each is named by what holds it and the member. */
export interface SheetNumbers {
  /** "−3.50" */
  readonly plain: <Holder extends object>(holder: Holder, member: NumberMember<Holder>) => string;
  /** "−3.50 dB" */
  readonly db: <Holder extends object>(holder: Holder, member: NumberMember<Holder>) => string;
  /** "12.5 ms" */
  readonly ms: <Holder extends object>(holder: Holder, member: NumberMember<Holder>) => string;
  /** "1.6 kHz" */
  readonly hz: <Holder extends object>(holder: Holder, member: NumberMember<Holder>) => string;
  /** In the unit's own count: "12.50 ms", or "600 samples (12.500 ms)". */
  readonly delay: (holder: { readonly delayMs: number }, ability: DelayAbility) => string;
  /** "mark 80 (−10.0 dB)" */
  readonly fader: (holder: { readonly faderMark?: number }) => string;
  /** How many numbers of the configuration are no steps of the unit; each is printed with {@link OFF_STEP}. */
  readonly offSteps: number;
}

/** Stands behind a number that the unit cannot be set to. */
export const OFF_STEP = " !";

export function sheetNumbers(configuration: Configuration, profile: UnitProfile): SheetNumbers {
  const limited = limitedNumbers(configuration, profile);
  const limits = new Map<unknown, Map<string | number, LimitedNumber>>();
  for (const number of limited) {
    const holder = valueAtPosition(configuration, number.path.slice(0, -1));
    const members = limits.get(holder) ?? new Map<string | number, LimitedNumber>();
    limits.set(holder, members.set(number.path.at(-1)!, number));
  }
  const limitOf = (holder: object, member: string | number) => limits.get(holder)?.get(member);
  const mark = (holder: object, member: string | number): string => {
    const limit = limitOf(holder, member);
    return limit === undefined || isOnStep(limit) ? "" : OFF_STEP;
  };
  const digits = (holder: object, member: string | number, least: number): string => {
    const value = memberOf(holder, member) as number;
    const limit = limitOf(holder, member);
    if (limit === undefined || !isOnStep(limit)) return printToKeyIn(value, least);
    const decimals = gridDecimals(limit.grid);
    if (decimals === undefined) return printToKeyIn(value, least);
    return printNumber(gridNearest(limit.grid, value), decimals);
  };
  return {
    plain: (holder, member) => digits(holder, member, 1) + mark(holder, member),
    db: (holder, member) => `${digits(holder, member, 1)} dB${mark(holder, member)}`,
    ms: (holder, member) => `${digits(holder, member, 0)} ms${mark(holder, member)}`,
    hz: (holder, member) => printHzToKeyIn(memberOf(holder, member) as number) + mark(holder, member),
    delay: (holder, { unit, grid }) => {
      const off = mark(holder, "delayMs");
      if (unit === "ms") return `${digits(holder, "delayMs", 1)} ms${off}`;
      const samples = samplesFromMs(holder.delayMs, configuration.unit.sampleRateHz);
      const count = off === "" ? gridNearest(grid, samples) : samples;
      return `${printToKeyIn(count, 0)} samples (${printMs(holder.delayMs, 3)})${off}`;
    },
    fader: (holder) =>
      holder.faderMark === undefined
        ? "stays where it is"
        : `mark ${digits(holder, "faderMark", 0)} (${printDb(faderLevelDb(profile.fader, holder.faderMark))})${mark(holder, "faderMark")}`,
    offSteps: limited.filter((number) => !isOnStep(number)).length,
  };
}

function memberOf(holder: unknown, member: string | number): unknown {
  return (holder as Readonly<Record<string | number, unknown>>)[member];
}

function isOnStep({ grid, value, tolerance }: LimitedNumber): boolean {
  return gridContains(grid, value, tolerance);
}

const DECIMALS_MAX = 4;

/** How many decimals show every value of a grid; undefined where no few decimals do. */
function gridDecimals(grid: NumberGrid): number | undefined {
  if (grid.kind === "log") return undefined;
  const shown = grid.kind === "step" ? [grid.min, grid.step] : grid.values;
  for (let decimals = 0; decimals <= DECIMALS_MAX; decimals += 1) {
    const scale = 10 ** decimals;
    if (shown.every((value) => Math.abs(value * scale - Math.round(value * scale)) < 1e-6)) return decimals;
  }
  return undefined;
}
