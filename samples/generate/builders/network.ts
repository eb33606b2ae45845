import type { Network } from "../../../src/model/index.ts";

/** Fixed addresses, all from the blocks that RFC 5737 keeps for documentation. */
export function fixedNetwork(description: {
  readonly hostname: string;
  /** Last part of 192.0.2.x and of 198.51.100.x. */
  readonly host: number;
  readonly audio: boolean;
  readonly labels?: readonly [control: string, audio: string];
}): Network {
  const { hostname, host, audio, labels = ["Control", "Audio network"] } = description;
  const prefixLength = 26;
  return {
    hostname,
    interfaces: [
      {
        id: "control",
        label: labels[0],
        purpose: "control",
        mode: "fixed",
        address: `192.0.2.${host}`,
        prefixLength,
        gateway: `192.0.2.${host - (host % 64) + 1}`,
      },
      ...(audio
        ? ([
            {
              id: "audio",
              label: labels[1],
              purpose: "audio",
              mode: "fixed",
              address: `198.51.100.${host}`,
              prefixLength,
            },
          ] as const)
        : []),
    ],
  };
}
