export { BoothkeepError, type ErrorOptions, type ErrorPlace } from "./boothkeep-error.ts";
export { ERROR_CATALOGUE, type ErrorCode, EXIT_CODE, type ExitClass } from "./catalogue.ts";
