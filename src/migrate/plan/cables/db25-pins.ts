import type { Connector } from "../../../model/index.ts";

interface Circuit {
  readonly hot: number;
  readonly cold: number;
  readonly screen: number;
}

/**
 * Pins of the eight circuits of a DB-25, circuit 1 first. Source: AES59-2012 (r2017) through public tables; the
 * standard itself was not read. Pin 13 is not connected.
 */
const AES59_CIRCUITS: readonly Circuit[] = [
  { hot: 24, cold: 12, screen: 25 },
  { hot: 10, cold: 23, screen: 11 },
  { hot: 21, cold: 9, screen: 22 },
  { hot: 7, cold: 20, screen: 8 },
  { hot: 18, cold: 6, screen: 19 },
  { hot: 4, cold: 17, screen: 5 },
  { hot: 15, cold: 3, screen: 16 },
  { hot: 1, cold: 14, screen: 2 },
];

/** In the digital wiring circuits 1 to 4 are AES3 inputs, 5 to 8 AES3 outputs, two channels on each. */
const DIGITAL_OUTPUTS_FROM = 4;
const DIGITAL_CIRCUITS_PER_DIRECTION = 4;

/** The circuit of a DB-25 that a connector stands for; undefined where the profile names no published wiring. */
export function db25Pins(connector: Connector): Circuit | undefined {
  if (connector.style !== "db25" || connector.wiring === undefined) return undefined;
  if (connector.wiring === "aes59-analog") return AES59_CIRCUITS[connector.position - 1];
  const line = Math.ceil(connector.position / 2) - 1;
  if (line >= DIGITAL_CIRCUITS_PER_DIRECTION) return undefined;
  return AES59_CIRCUITS[connector.direction === "output" ? DIGITAL_OUTPUTS_FROM + line : line];
}

/** "hot 24, cold 12, screen 25". */
export function db25PinWords(connector: Connector): string | undefined {
  const pins = db25Pins(connector);
  return pins === undefined ? undefined : `hot ${pins.hot}, cold ${pins.cold}, screen ${pins.screen}`;
}
