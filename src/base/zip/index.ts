export type { ZipRefusal, ZipRules } from "./rules.ts";
export { checkZipStructure, type ZipMember } from "./structure.ts";
export { unzip, type ZipFile } from "./unzip.ts";
export { zip } from "./zip.ts";
