export { type HousePrint, housePrint } from "./house-print.ts";
export { twinChecks } from "./twin-checks.ts";
export { type OddOneOut, type TwinCounts, TwinFinder, type TwinGroup, type Twins } from "./twins.ts";
