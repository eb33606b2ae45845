export {
  printDb,
  printDbChange,
  printHz,
  printMetres,
  printMs,
  printNumber,
  printSigned,
} from "./numbers.ts";
export { channelName, outputName, placeAtIds, placeOf, sourceChannelName } from "./places.ts";
export { printValue } from "./values.ts";
