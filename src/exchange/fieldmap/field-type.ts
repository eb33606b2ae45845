import { fieldAt } from "../../model/index.ts";

const COUNTS = /(?:^|\.)(?:q|slope|order|slot|boxes|position|safeHighPassOrder|taps\[\])$/;
const SWITCHES = /(?:^|\.)(?:enabled|mute)$/;

/** What a field of the configuration holds; a test holds it against the schema. */
export function fieldType(path: string): "text" | "number" | "boolean" {
  if (SWITCHES.test(path)) return "boolean";
  return COUNTS.test(path) || (fieldAt(path)?.unit ?? "") !== "" ? "number" : "text";
}
