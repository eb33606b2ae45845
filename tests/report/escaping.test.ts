import MarkdownIt from "markdown-it";
import { describe, expect, it } from "vitest";
import {
  harmless,
  type ReportDocument,
  renderHtml,
  renderMarkdown,
  renderText,
} from "../../src/report/index.ts";
import { HOSTILE_TEXTS } from "./hostile.ts";

/** A report that has a text in every place where a text can stand. */
function everywhere(text: string): ReportDocument {
  return {
    title: text,
    subtitle: text,
    footer: text,
    blocks: [
      { kind: "heading", level: 2, text },
      { kind: "paragraph", text },
      { kind: "paragraph", text, weight: "lead" },
      { kind: "facts", pairs: [[text, text]] },
      { kind: "list", marker: "dot", items: [{ text, lead: text, tags: [text], notes: [text] }] },
      { kind: "list", marker: "box", items: [{ text }] },
      { kind: "list", marker: "number", items: [{ text, lead: text }] },
      { kind: "caution", title: text, items: [text] },
      {
        kind: "table",
        caption: text,
        boxes: true,
        rowNames: true,
        columns: [{ header: text }, { header: text, align: "end" }],
        rows: [[text, { text, strong: true }]],
      },
      {
        kind: "figure",
        caption: text,
        alt: text,
        drawing: { tag: "svg", attributes: { viewBox: "0 0 1 1", "data-x": text }, children: [text] },
      },
      { kind: "scan-code", caption: text, text, modules: ["#.", ".#"] },
      { kind: "columns", groups: [[{ kind: "heading", level: 3, text }], [{ kind: "paragraph", text }]] },
      { kind: "signatures", roles: [text] },
      { kind: "page-break" },
    ],
  };
}

/** What a renderer must never put out of a text of others: control characters but line ends, overrides, separators. */
const ACTING = /(?![\n\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;

const markdown = new MarkdownIt({ html: true, linkify: true });

describe.each(HOSTILE_TEXTS)("%j", (text) => {
  const report = everywhere(text);

  it("does nothing in a terminal, and makes no line wider than 80 columns", async () => {
    const { default: stringWidth } = await import("string-width");
    const output = renderText(report);
    expect(output).not.toMatch(ACTING);
    expect(Math.max(...output.split("\n").map((line) => stringWidth(line)))).toBeLessThanOrEqual(80);
  });

  it("is nothing but text in HTML", () => {
    const output = renderHtml(report);
    expect(output).not.toMatch(ACTING);
    const plain = renderHtml(everywhere("x"));
    const tags = (html: string): readonly string[] =>
      [...html.matchAll(/<\/?([a-z0-9]+)/g)].map(([, tag]) => tag!);
    expect(tags(output)).toEqual(tags(plain));
    expect(output).not.toMatch(/<script|<img|onerror=alert\(1\)>/);
  });

  it("is shown as it is by a Markdown reader", () => {
    const output = renderMarkdown(report);
    expect(output).not.toMatch(ACTING);
    const html = markdown.render(output);
    const plain = markdown.render(renderMarkdown(everywhere("x")));
    const tags = (one: string): readonly string[] =>
      [...one.matchAll(/<\/?([a-z0-9]+)/g)].map(([, tag]) => tag!);
    expect(tags(html)).toEqual(tags(plain));
    const shown = html.match(/<p>(.*?)<\/p>/)?.[1];
    expect(decoded(shown ?? "")).toBe(harmless(text).trim());
  });
});

function decoded(html: string): string {
  const entities: Readonly<Record<string, string>> = {
    "&lt;": "<",
    "&gt;": ">",
    "&quot;": '"',
    "&amp;": "&",
  };
  return html.replace(/&(?:lt|gt|quot|amp);/g, (entity) => entities[entity]!);
}

describe("harmless", () => {
  it("shows what would act by its code point, and leaves the rest alone", () => {
    expect(harmless("Left\u001b[31m")).toBe("Left[U+001B][31m");
    expect(harmless("a\u202eb\nc\u{e0041}")).toBe("a[U+202E]b[U+000A]c[U+E0041]");
    expect(harmless("Größe 3 µs 漢 \u0645\u06cc\u200c\u062e")).toBe("Größe 3 µs 漢 \u0645\u06cc\u200c\u062e");
  });
});
