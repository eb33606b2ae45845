import type { Configuration, ConnectorKind, DocumentPath } from "../model/index.ts";
import { CONNECTORS_OF_SOURCE } from "../profile/index.ts";

/** One use of a connector, and what sort of connector the use asks for. */
export interface ConnectorUse {
  readonly path: DocumentPath;
  readonly connectorId: string;
  readonly direction: "input" | "output" | "control";
  /** Kinds of signal that will do; absent: any. */
  readonly kinds?: readonly ConnectorKind[];
  /** Whether a second use of the same connector is a mistake. A control line may carry many triggers. */
  readonly alone: boolean;
}

/** Every use of a connector in the order of the document. */
export function connectorUses(configuration: Configuration): readonly ConnectorUse[] {
  const { sources, outputs, operation, automation } = configuration;
  const inputs = sources.flatMap((source, i) =>
    source.channels.map(
      (channel, j): ConnectorUse => ({
        path: ["sources", i, "channels", j, "connectorId"],
        connectorId: channel.connectorId,
        direction: "input",
        kinds: CONNECTORS_OF_SOURCE[source.kind],
        alone: false,
      }),
    ),
  );
  const used = outputs.map(
    (output, i): ConnectorUse => ({
      path: ["outputs", i, "connectorId"],
      connectorId: output.connectorId,
      direction: "output",
      alone: true,
    }),
  );
  const mute: readonly ConnectorUse[] =
    operation.emergencyMute === undefined
      ? []
      : [
          {
            path: ["operation", "emergencyMute", "connectorId"],
            connectorId: operation.emergencyMute.connectorId,
            direction: "control",
            kinds: ["contact"],
            alone: false,
          },
        ];
  const triggers = automation.flatMap(({ trigger }, i): readonly ConnectorUse[] =>
    trigger.kind === "network"
      ? []
      : [
          {
            path: ["automation", i, "trigger", "connectorId"],
            connectorId: trigger.connectorId,
            direction: "control",
            kinds: [trigger.kind],
            alone: false,
          },
        ],
  );
  return [...inputs, ...used, ...mute, ...triggers];
}
