import type { Configuration } from "../../model/index.ts";
import type { Plan } from "./plan.ts";

/**
 * The new configuration as it acts with the cables that the plan asks for: where the unit cannot invert an output and it was
 * decided to exchange hot and cold in the cable, the output counts as inverted. For a proof; the unit cannot hold it.
 */
export function asWired({ configuration, items }: Plan): Configuration {
  const turned = new Set(items.filter(({ outcome }) => outcome === "moved").flatMap(({ claims }) => claims));
  return {
    ...configuration,
    outputs: configuration.outputs.map((output) =>
      turned.has(`outputs/${output.id}/polarity`) ? { ...output, polarity: "inverted" } : output,
    ),
  };
}
