/**
 * Breaks a text at spaces so that no line is wider than `columns`; a longer word is cut. Lines after the first begin
 * with `indent`.
 */
export function wrap(text: string, columns: number, indent = "  "): string {
  const lines: string[] = [];
  let line = "";
  const next = () => {
    lines.push(line);
    line = indent;
  };
  for (const word of text.split(/\s+/)) {
    let rest = word;
    if (line.trim() !== "" && line.length + 1 + rest.length > columns) next();
    while (line.length + rest.length > columns) {
      const room = columns - line.length;
      line += rest.slice(0, room);
      rest = rest.slice(room);
      next();
    }
    line += line.trim() === "" ? rest : ` ${rest}`;
  }
  if (line.trim() !== "") lines.push(line);
  return lines.join("\n");
}

/** The same two columns in, for one line of a list: what outside texts hold is made harmless by the caller. */
export function indented(text: string, columns: number): string {
  return wrap(text, columns - 2)
    .split("\n")
    .map((line) => `  ${line}`)
    .join("\n");
}
