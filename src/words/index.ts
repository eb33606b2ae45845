export { laterBy, octavesMoved, raisedBy } from "./changes.ts";
export {
  crossoverInComparison,
  crossoverInPlan,
  crossoverInRule,
  crossoverToKeyIn,
  passBand,
} from "./crossovers.ts";
export { filterInComparison, filterWidthToKeyIn, inUse } from "./filters.ts";
export { limiterInPlan, limiterToKeyIn } from "./limiters.ts";
export { counted, firstAndOthers, firstOf, listed, listedInFull, quoted, quotedShort } from "./lists.ts";
export {
  decimalsOf,
  groupedDigits,
  printAsIs,
  printDb,
  printDbChange,
  printGridValue,
  printHz,
  printHzToKeyIn,
  printLevel,
  printLevelChange,
  printMetres,
  printMs,
  printNumber,
  printOffset,
  printScaleMark,
  printSigned,
  printToKeyIn,
} from "./numbers.ts";
export { bandWords, feedToKeyIn, outputInPlan, outputName } from "./outputs.ts";
export { channelInPlan, channelName, placeAtIds, placeOf, sourceChannelName } from "./places.ts";
export {
  actionByIds,
  actionToKeyIn,
  automationInComparison,
  triggerByIds,
  triggerToKeyIn,
} from "./triggers.ts";
export { printProved, printReadBack, printValue } from "./values.ts";
