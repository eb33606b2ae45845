import { readFileSync } from "node:fs";

/** The version of this boothkeep, from its package.json. */
export function ownVersion(): string {
  // From cli/ in the sources and from dist/cli/ or dist/chunks/ when built.
  for (const up of ["../package.json", "../../package.json"]) {
    try {
      const text = readFileSync(new URL(up, import.meta.url), "utf8");
      return (JSON.parse(text) as { version: string }).version;
    } catch {}
  }
  return "unknown";
}
