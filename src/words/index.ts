export {
  printDb,
  printDbChange,
  printHz,
  printMetres,
  printMs,
  printNumber,
  printSigned,
} from "./numbers.ts";
export { printValue } from "./values.ts";
