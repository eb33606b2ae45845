import { Option } from "commander";
import type { ReportDocument } from "../src/public/boothkeep.ts";
import { jsonText } from "../src/public/report.ts";
import type { Context } from "./context.ts";
import { writeNew } from "./files.ts";
import { wrap } from "./wrap.ts";

const FORMATS = ["text", "markdown", "html", "json"] as const;
export type ReportFormat = (typeof FORMATS)[number];

export interface ReportOptions {
  readonly format?: ReportFormat;
  readonly json?: boolean;
  readonly out?: string;
}

/** The option that says how a paper is printed. */
export function formatOption(): Option {
  return new Option("--format <format>", "how to print (default: as the file is named, else text)").choices(
    FORMATS,
  );
}

/** How a paper is wanted: as said, else by the name of the file. */
export function formatOf({ format, json, out = "" }: ReportOptions): ReportFormat {
  if (json === true) return "json";
  if (format !== undefined) return format;
  if (/\.html?$/i.test(out)) return "html";
  if (/\.(md|markdown)$/i.test(out)) return "markdown";
  return /\.json$/i.test(out) ? "json" : "text";
}

/** Prints a paper, or writes it into a new file. */
export async function printReport(
  report: ReportDocument,
  options: ReportOptions & { readonly data: unknown },
  context: Context,
): Promise<void> {
  const format = formatOf(options);
  const { renderHtml, renderMarkdown, renderText } = await import("../src/public/boothkeep.ts");
  const { columns, color } = context;
  const text = {
    text: () => renderText(report, options.out === undefined ? { columns, color } : {}),
    markdown: () => renderMarkdown(report),
    html: () => renderHtml(report),
    json: () => jsonText(options.data),
  }[format]();
  if (options.out === undefined) return context.out(text);
  writeNew(options.out, text.endsWith("\n") ? text : `${text}\n`, context.cwd);
  context.err(wrap(`Written to ${options.out}.`, context.columns));
}
