import type { SvgNode } from "../document.ts";
import { attribute, escaped } from "./html-escape.ts";

/** A drawing as SVG text, to stand inside an HTML page. */
export function svgText(node: SvgNode): string {
  const attributes = Object.entries(node.attributes)
    .map(([name, value]) => ` ${name}="${attribute(String(value))}"`)
    .join("");
  const children = (node.children ?? []).map((child) =>
    typeof child === "string" ? escaped(child) : svgText(child),
  );
  return children.length === 0
    ? `<${node.tag}${attributes}/>`
    : `<${node.tag}${attributes}>${children.join("")}</${node.tag}>`;
}
