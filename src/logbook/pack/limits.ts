/** Bounds of a pack. A real one has about fifteen files and one MiB; nothing near these bounds is a pack. */
export const LIMITS = {
  packBytes: 32 * 1024 * 1024,
  files: 64,
  fileBytes: 16 * 1024 * 1024,
  unpackedBytes: 64 * 1024 * 1024,
  /** Unpacked bytes for each packed one. Deflate reaches 1,032; text that people read stays below 50. */
  ratio: 200,
} as const;

/** Names in a pack: plain lower-case ASCII, no folders. Nothing else can climb, collide, hide or name a device. */
export const SAFE_NAME = /^[a-z0-9][a-z0-9-]{0,63}\.[a-z0-9]{1,8}$/;
/** Names that Windows keeps for devices, whatever their extension. */
export const DEVICE_NAME = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])\./;
