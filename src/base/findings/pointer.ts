/** Joins parts to a JSON Pointer (RFC 6901 section 3): `~` becomes `~0`, `/` becomes `~1`. */
export function pointer(...parts: readonly (string | number)[]): string {
  return parts.map((part) => `/${String(part).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/** Splits a JSON Pointer into its parts (RFC 6901 section 4). The whole document is `[]`. */
export function pointerParts(text: string): readonly string[] {
  if (text === "") return [];
  return text
    .slice(1)
    .split("/")
    .map((part) => part.replaceAll("~1", "/").replaceAll("~0", "~"));
}
