import { canonicalText } from "../../base/canonical/index.ts";
import { BoothkeepError } from "../../base/errors/index.ts";
import { readConfiguration, readProfile } from "../../model/index.ts";
import type { KeptDocument } from "../entries/index.ts";
import type { Pack } from "./read-pack.ts";
import { refusal } from "./refusals.ts";

/**
 * Checks the configurations and the unit profile of a pack against their schemas, of whatever version they are. The manifest
 * and the entries were checked when the pack was read.
 *
 * @throws BoothkeepError pack.unfit-document; document.newer-version where this boothkeep is too old for a document
 */
export function checkPackDocuments({
  configuration,
  profile,
  previous,
}: Pick<Pack, "configuration" | "profile" | "previous">): void {
  check("configuration.json", configuration, readConfiguration);
  check("unit-profile.json", profile, readProfile);
  for (const { entry, configuration: earlier } of previous) {
    check(`the configuration of previous entry ${entry.number}`, earlier, readConfiguration);
  }
}

function check(name: string, document: KeptDocument, read: (text: string) => unknown): void {
  try {
    read(canonicalText(document));
  } catch (error) {
    if (!(error instanceof BoothkeepError) || error.code === "document.newer-version") throw error;
    throw refusal("unfit-document", `In the pack, ${name}: ${error.message}`, name);
  }
}
