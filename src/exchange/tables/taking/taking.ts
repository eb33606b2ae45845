import type { Configuration } from "../../../model/index.ts";
import type { NamedElsewhere } from "./check-references.ts";
import type { Draft } from "./draft.ts";
import type { Problems, TablePlace } from "./problem.ts";

/** What the rows of all tables are held against. */
export interface Taking {
  /** The configuration that the tables were made of. */
  readonly before: Configuration;
  readonly draft: Draft;
  readonly problems: Problems;
  /** Where each row stood that was met already, by table and keys. */
  readonly met: Map<string, TablePlace>;
  /** Names that must be there elsewhere. */
  readonly references: NamedElsewhere[];
}
