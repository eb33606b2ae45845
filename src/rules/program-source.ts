import { type ChannelLabel, carriedBy, type Format } from "../model/index.ts";
import type { RuleContext } from "./context.ts";

/** Whether a source has a channel that carries a label in programs of a format; a mono signal serves mono programs. */
export function sourceCarries(
  { sources }: RuleContext,
  sourceId: string,
  label: ChannelLabel,
  format: Format,
): boolean {
  const source = sources.get(sourceId)?.item;
  return (source?.channels ?? []).some((channel) => {
    const carried = carriedBy(source!, channel, format);
    return carried === label || (format === "mono" && carried === "mono");
  });
}
