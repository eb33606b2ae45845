import { type HistoryItem, refusalError } from "../standing/index.ts";

/**
 * Whether the signature policy lets an entry be loaded, and its number is one that boothkeep gives.
 * @throws BoothkeepError logbook.broken-signature, logbook.unsigned, logbook.unknown-policy, logbook.number-beyond
 */
export function requireRestorable({ id, standing }: Pick<HistoryItem, "id" | "standing">): void {
  if (standing.refusal !== undefined) throw refusalError(standing.refusal, id);
}
