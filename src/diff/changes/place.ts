import { pointer } from "../../base/findings/index.ts";
import type { Configuration } from "../../model/index.ts";
import type { ItemPath } from "./change-set.ts";
import { keyOf } from "./identity.ts";
import { isList, isObject, type Json } from "./json.ts";
import { CONFIGURATION_SHAPE, isKeyed, type Shape } from "./shape.ts";

/** A place of a document on the way down a path. */
interface Step {
  readonly value: Json | undefined;
  readonly shape: Shape | undefined;
  /** The member's name or the position in the list, as a JSON Pointer has it. */
  readonly part: string | number;
}

/** One step down: by a member's name, by an item's key, by an index. */
function stepDown({ value, shape }: Pick<Step, "value" | "shape">, part: string): Step {
  if (isList(value) && shape?.list !== undefined) {
    const index = isKeyed(shape) ? value.findIndex((item) => keyOf(item, shape) === part) : Number(part);
    return { value: value[index], shape: shape.list.item, part: index };
  }
  const member = shape?.members.get(part);
  return { value: member !== undefined && isObject(value) ? value[part] : undefined, shape: member, part };
}

function stepsTo(document: Configuration, path: ItemPath): readonly Step[] {
  let at: Pick<Step, "value" | "shape"> = { value: document as unknown as Json, shape: CONFIGURATION_SHAPE };
  return path.map((part) => {
    const step = stepDown(at, part);
    at = step;
    return step;
  });
}

/** What stands at a place of a configuration; `undefined` when nothing does. */
export function valueAt(document: Configuration, path: ItemPath): Json | undefined {
  return path.length === 0 ? (document as unknown as Json) : stepsTo(document, path).at(-1)?.value;
}

/** The JSON Pointer (RFC 6901) of a place in this document; of its nearest ancestor when nothing stands there. */
export function pointerTo(document: Configuration, path: ItemPath): string {
  const steps = stepsTo(document, path);
  const missing = steps.findIndex(({ value }) => value === undefined);
  return pointer(...(missing === -1 ? steps : steps.slice(0, missing)).map(({ part }) => part));
}

/** The shape at a place; `undefined` for a place that no configuration has. */
export function shapeAt(path: ItemPath): Shape | undefined {
  let shape: Shape | undefined = CONFIGURATION_SHAPE;
  for (const part of path) shape = shape?.list?.item ?? shape?.members.get(part);
  return shape;
}
