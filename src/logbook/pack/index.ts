export { checkPackDocuments } from "./check-documents.ts";
export { type Pack, type ReadPackOptions, readPack } from "./read-pack.ts";
export { type SavePackOptions, savePack } from "./save-pack.ts";
export { type PackContent, type PreviousEntry, writePack } from "./write-pack.ts";
