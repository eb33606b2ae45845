/** An IPv4 address in dotted-decimal form as a number. */
export function addressNumber(address: string): number {
  return address.split(".").reduce((sum, part) => sum * 256 + Number(part), 0);
}

/** Whether two addresses lie in one network of a prefix length (RFC 4632). */
export function isSameNetwork(a: string, b: string, prefixLength: number): boolean {
  const hosts = 2 ** (32 - prefixLength);
  return Math.floor(addressNumber(a) / hosts) === Math.floor(addressNumber(b) / hosts);
}

/**
 * Networks that the internet does not reach: RFC 1918, link-local (RFC 3927), behind a provider's address translation
 * (RFC 6598), and those for documentation (RFC 5737).
 */
const PRIVATE_NETWORKS: readonly (readonly [string, number])[] = [
  ["10.0.0.0", 8],
  ["172.16.0.0", 12],
  ["192.168.0.0", 16],
  ["169.254.0.0", 16],
  ["100.64.0.0", 10],
  ["192.0.2.0", 24],
  ["198.51.100.0", 24],
  ["203.0.113.0", 24],
];

export function isPrivate(address: string): boolean {
  return PRIVATE_NETWORKS.some(([network, prefixLength]) => isSameNetwork(address, network, prefixLength));
}
