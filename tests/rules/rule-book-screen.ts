import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Finding } from "../../src/base/findings/index.ts";
import {
  type Configuration,
  inspectDocument,
  readConfiguration,
  readProfile,
} from "../../src/model/index.ts";
import {
  edited,
  type Rule,
  shapeFindings,
  validateConfiguration,
  validateSite,
} from "../../src/rules/index.ts";

const folder = join(import.meta.dirname, "../../samples/rule-book");
const read = (file: string) => readFileSync(join(folder, file));

/** The screen and unit on which the examples of the rule book stand. */
export const screen: Configuration = readConfiguration(read("screen.json")).document;
export const unit = readProfile(read("profiles/marl-24.json")).document;

/** A second screen of the same site that differs in everything that must differ. */
const neighbour = edited(screen, [
  { kind: "set", at: "/screen/screenId", value: "screen-2" },
  { kind: "set", at: "/screen/screenName", value: "Screen 2" },
  { kind: "set", at: "/unit/serial", value: "M24-000777" },
  { kind: "set", at: "/network/hostname", value: "model-house-2" },
  { kind: "set", at: "/network/interfaces/control/address", value: "10.20.1.77" },
]);

/** Everything that is found in a document, whatever its state. */
export function findingsOf(document: unknown, today?: string): readonly Finding[] {
  const { shape, document: value } = inspectDocument(JSON.stringify(document));
  if (shape.total > 0) return shapeFindings(shape.problems);
  return validateConfiguration(value as Configuration, { profile: unit, today });
}

/** What a rule's example finds before and after it is mended. */
export function playExample(rule: Rule): {
  readonly broken: readonly Finding[];
  readonly mended: readonly Finding[];
} {
  const { breaks, mends, today } = rule.example;
  if (rule.scope === "site") {
    const broken = edited(neighbour, breaks);
    const find = (second: Configuration) => validateSite([screen, second]).map(({ finding }) => finding);
    return { broken: find(broken), mended: find(edited(broken, mends, neighbour)) };
  }
  const broken = edited(screen, breaks);
  return { broken: findingsOf(broken, today), mended: findingsOf(edited(broken, mends, screen), today) };
}
