/** Breaks a text at spaces so that no line is wider than `columns`; a longer word is cut. Later lines are indented by two. */
export function wrap(text: string, columns: number): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/)) {
    let rest = word;
    const indent = lines.length === 0 ? "" : "  ";
    if (line === "") line = indent;
    if (line.trim() !== "" && line.length + 1 + rest.length > columns) {
      lines.push(line);
      line = "  ";
    }
    while (rest.length > columns - 2) {
      lines.push(line + rest.slice(0, columns - line.length));
      rest = rest.slice(columns - line.length);
      line = "  ";
    }
    line += line.trim() === "" ? rest : ` ${rest}`;
  }
  if (line.trim() !== "") lines.push(line);
  return lines.join("\n");
}
