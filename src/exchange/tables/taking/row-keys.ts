import { harmless } from "../../../base/text/index.ts";
import { quotedShort } from "../../../words/index.ts";
import { fieldHeading, SCREEN_HEADINGS } from "../headings.ts";
import { keyText } from "../rows.ts";
import type { UnknownKey } from "./draft.ts";
import { meantWords } from "./names.ts";
import type { TableRow } from "./table-row.ts";
import type { Taking } from "./taking.ts";

/** The keys of a row; undefined when they are wrong, of another screen, or met before. */
export function keysOf(row: TableRow, { before, problems, met }: Taking): readonly string[] | undefined {
  const { columns, layout } = row.table;
  const { siteId, screenId } = before.screen;
  for (const column of columns) {
    if (column.role.kind !== "screen") continue;
    const said = row.textAt(column);
    const own = column.role.which === 0 ? siteId : screenId;
    if (said === "" || said === own) continue;
    problems.add(
      row.at(column).place,
      `The row belongs to another screen: ${SCREEN_HEADINGS[column.role.which].toLowerCase()} ${quotedShort(said)}, not '${own}'.`,
      "Take the table of this screen. To use the values here all the same, take the columns of site and screen out.",
    );
    return undefined;
  }
  const keyColumns = columns.filter(({ role }) => role.kind === "key");
  const empty = keyColumns.find((column) => row.textAt(column) === "");
  if (empty !== undefined) {
    problems.add(
      row.at(empty).place,
      `'${empty.heading}' ${row.at(empty).cell === undefined ? "is empty" : "holds no name"}: it is not clear which row this is.`,
      "Fill it, or take the row out.",
    );
    return undefined;
  }
  const keys: string[] = [];
  for (const column of keyColumns) {
    if (column.role.kind === "key") keys[column.role.level] = row.textAt(column);
  }
  const name = keyText([layout.name, ...keys]);
  const other = met.get(name);
  if (other !== undefined) {
    const where =
      other.file === row.place.file && other.sheet === row.place.sheet
        ? ""
        : ` of ${other.sheet ?? other.file}`;
    problems.add(
      row.place,
      `${keys.map(quotedShort).join(", ")} stands in two rows; the other is row ${other.row}${where}.`,
      "Keep one of the two rows.",
    );
    return undefined;
  }
  met.set(name, row.place);
  return keys;
}

/** Lists whose items come into being when a table fills them. */
const MADE_BY_USE = "equalizations[].channels";

/** Whether the key that is missing may be added; says so where not. */
export function mayGrow(
  row: TableRow,
  keys: readonly string[],
  unknown: UnknownKey,
  { draft, problems }: Taking,
): boolean {
  const { layout, columns } = row.table;
  const { level, key, known } = unknown;
  const isLast = level.list === layout.list;
  const isChannel = level.key !== "channelId" || draft.configuration.channels.some(({ id }) => id === key);
  if (isChannel && ((isLast && layout.growsBy !== undefined) || level.list === MADE_BY_USE)) return true;
  const names = level.key === "channelId" ? draft.configuration.channels.map(({ id }) => id) : known;
  const heading = fieldHeading(level.keyField);
  const column = columns.find((item) => item.heading.toLowerCase() === heading.toLowerCase());
  problems.add(
    column === undefined ? row.place : row.at(column).place,
    `The configuration has no ${heading[0]!.toLowerCase()}${heading.slice(1)} ${quotedShort(key)}${keys.length > 1 && !isChannel ? "" : outer(keys, key)}.`,
    meantWords(key, names),
  );
  return false;
}

function outer(keys: readonly string[], key: string): string {
  const above = keys.slice(0, keys.indexOf(key));
  return above.length === 0 ? "" : ` in ${above.map(quotedShort).join(", ")}`;
}

/** Columns that only tell what a row is about must tell the truth: else a row was filled for something else. */
export function checkShown(row: TableRow, keys: readonly string[], { before, problems }: Taking): void {
  for (const column of row.table.columns) {
    if (column.role.kind !== "shown") continue;
    const said = row.textAt(column);
    const is = harmless(column.role.shown.of(before, keys)).trim();
    if (said === "" || said === is) continue;
    problems.add(
      row.at(column).place,
      `The row says ${quotedShort(said)}, but ${quotedShort(keys.at(-1)!)} is ${quotedShort(is)}.`,
      "This column only tells what a row is about. Check that the values stand in the right row, then empty the cell.",
    );
  }
}
