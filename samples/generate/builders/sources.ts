import type { Source, SourceChannel } from "../../../src/model/index.ts";

type Carries = NonNullable<SourceChannel["carries"]>;

interface SourceDescription extends Pick<Source, "id" | "label" | "kind" | "latencyMs"> {
  /** Start of the connector ids: "aes-in" gives "aes-in-01". */
  readonly connectors: string;
  /** Number of the first connector. */
  readonly from?: number;
  readonly gainDb?: number;
}

/** A source whose positions follow ISDCF Document 4 (2017), by the preset's format. */
export function dcpSource(description: SourceDescription & { readonly count: number }): Source {
  const { count, ...rest } = description;
  return source(rest, "isdcf-doc4-2017", Array<undefined>(count).fill(undefined));
}

/** A source that says of each channel what it carries. */
export function labelledSource(
  description: SourceDescription & { readonly carries: readonly Carries[] },
): Source {
  const { carries, ...rest } = description;
  return source(rest, "as-labelled", carries);
}

function source(
  { connectors, from = 1, gainDb = 0, ...head }: SourceDescription,
  assignment: Source["assignment"],
  carries: readonly (Carries | undefined)[],
): Source {
  return {
    ...head,
    assignment,
    channels: carries.map((carried, index) => ({
      id: `${head.id}-${twoDigits(index + 1)}`,
      position: index + 1,
      connectorId: `${connectors}-${twoDigits(from + index)}`,
      ...(carried === undefined ? {} : { carries: carried }),
      gainDb,
    })),
  };
}

function twoDigits(value: number): string {
  return String(value).padStart(2, "0");
}
