export { ENTRY_DIGITS, type Imprint, imprintText, readImprint } from "./imprint.ts";
export { judgePaper, type PaperJudgement, type PaperVerdict } from "./judge-paper.ts";
export { type PrintedImprint, printedImprint } from "./modules.ts";
