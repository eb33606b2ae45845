export { harmless, linesOf } from "./harmless.ts";
