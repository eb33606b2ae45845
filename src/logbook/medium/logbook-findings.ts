import type { Finding, FindingNumbers, Severity } from "../../base/findings/index.ts";

interface FindingWords {
  readonly severity: Severity;
  readonly words: (subject: string, numbers: FindingNumbers) => string;
  readonly remedy: string;
}

const HEAL = "Heal it from another copy of this logbook, or from a handover pack.";

/** Everything that reading or verifying a logbook can find, with its words. */
const WORDS = {
  "logbook/damaged-file": {
    severity: "error",
    words: (file) => `The file ${file} is damaged: its bytes are not those that its name vouches for.`,
    remedy: HEAL,
  },
  "logbook/unreadable-file": {
    severity: "error",
    words: (file) => `The file ${file} could not be read from the medium.`,
    remedy: `Copy the logbook from this medium soon. ${HEAL}`,
  },
  "logbook/not-understood": {
    severity: "error",
    words: (file) =>
      `The file ${file} holds something that this version does not understand; it was passed over.`,
    remedy: "Look at it with a newer boothkeep.",
  },
  "logbook/misplaced-file": {
    severity: "error",
    words: (file) => `The file ${file} lies where records of another screen belong; it was passed over.`,
    remedy: "Move it back to the folder of its screen, or merge it in from there.",
  },
  "logbook/foreign-file": {
    severity: "warning",
    words: (file) => `The file ${file} is none of the logbook's; it was passed over.`,
    remedy: "Move it elsewhere.",
  },
  "logbook/renamed-copy": {
    severity: "warning",
    words: (file) =>
      `The file ${file} is a copy of a file of the logbook under another name, as sync clients leave them.`,
    remedy: "Delete the copy once the original is there; verify says whether it is.",
  },
  "logbook/stray-record": {
    severity: "warning",
    words: (file) => `The file ${file} holds a record of the logbook under a name that is not its own.`,
    remedy: "A healing takes the record in; the file can then be deleted.",
  },
  "logbook/unfinished-file": {
    severity: "advice",
    words: (file) => `The file ${file} was never finished; nothing depends on it.`,
    remedy: "The next recording to this screen sweeps it, unless another computer is still writing it.",
  },
  "logbook/missing-file": {
    severity: "error",
    words: (file) => `The file ${file} is missing: the register says that it was here.`,
    remedy: `It may not have been copied or synchronized yet. ${HEAL}`,
  },
  "logbook/missing-entry": {
    severity: "error",
    words: (id) => `The entry ${short(id)} is missing: a later record names it.`,
    remedy: `It may not have been copied or synchronized yet. ${HEAL}`,
  },
  "logbook/unlisted-screens": {
    severity: "error",
    words: (file) =>
      `The bound file of ${file} is missing or damaged: nobody can say which screens of the site it held.`,
    remedy: HEAL,
  },
  "logbook/missing-attachment": {
    severity: "error",
    words: (name) => `The attachment ${name} is missing or damaged.`,
    remedy: HEAL,
  },
  "logbook/damaged-mark": {
    severity: "advice",
    words: (file) =>
      `The mark ${file} does not say any more what its file holds; were the file lost, nobody would know what is missing.`,
    remedy: "A healing sets the mark again.",
  },
  "logbook/unmarked-file": {
    severity: "advice",
    words: (file) => `The register has no mark for ${file}; were the file lost, nobody would notice.`,
    remedy: "A healing or binding sets the mark.",
  },
  "logbook/lost-configuration": {
    severity: "error",
    words: (id) => `The configuration of the entry ${short(id)} cannot be put together from what is here.`,
    remedy: HEAL,
  },
  "logbook/other-screen": {
    severity: "error",
    words: (id) => `The entry ${short(id)} names a configuration of another screen or unit.`,
    remedy: "Do not load it. Find out who wrote it; record the screen again.",
  },
  "logbook/not-canonical": {
    severity: "error",
    words: (id) =>
      `The configuration of the entry ${short(id)} is not in the form in which every boothkeep writes it.`,
    remedy: "Do not load it. Find out who wrote it; record the screen again.",
  },
  "logbook/number-beyond": {
    severity: "warning",
    words: (id) =>
      `The entry ${short(id)} has a number that follows from no entry before it; it is never used.`,
    remedy: "Find out where it came from. Recording goes on beside it.",
  },
  "logbook/withdrawal-not-counted": {
    severity: "warning",
    words: (id, { signature }) =>
      `A withdrawal of the entry ${short(id)} does not count: ${signature === "none" ? "it is not signed" : "no trusted key signed it"}, and the policy asks for that.`,
    remedy: "Ask whoever withdrew it; somebody whose key the policy lists can withdraw it again and sign.",
  },
  "logbook/broken-withdrawal": {
    severity: "warning",
    words: (id) => `The signature of a withdrawal of the entry ${short(id)} does not match it.`,
    remedy: "Ask whoever withdrew it before you use the entry, or the one before it.",
  },
  "logbook/retired-signer": {
    severity: "warning",
    words: (id, { fingerprint }) =>
      `The entry ${short(id)} is signed with the key ${short(fingerprint)}, which was retired before that.`,
    remedy: "Have it signed again by somebody whose key is in use.",
  },
  "logbook/number-order": {
    severity: "warning",
    words: (id) => `The entry ${short(id)} has a number that does not follow the one before it.`,
    remedy: "Trust the order in which the entries name each other; find out which program wrote it.",
  },
  "logbook/broken-signature": {
    severity: "error",
    words: (id, { fingerprint }) =>
      `A signature of the entry ${short(id)} does not hold (key ${short(fingerprint)}).`,
    remedy: "Do not load this configuration; ask whoever signed it for a fresh copy.",
  },
  "logbook/idle-signature": {
    severity: "advice",
    words: (id, { fingerprint }) =>
      `Beside one that holds, the entry ${short(id)} has a signature that does not match it (key ${short(fingerprint)}).`,
    remedy: "It changes nothing. Find out who wrote it.",
  },
  "logbook/unknown-signer": {
    severity: "warning",
    words: (id, { fingerprint }) =>
      `The entry ${short(id)} is signed with the key ${short(fingerprint)}, which nobody listed as trusted.`,
    remedy: "Compare the key's fingerprint with its owner by another way, then list it in the policy.",
  },
  "logbook/unsigned": {
    severity: "warning",
    words: (id) => `The entry ${short(id)} is not signed, and the policy asks for a signature.`,
    remedy: "Have it signed by somebody whose key is on the list.",
  },
  "logbook/recorded-apart": {
    severity: "advice",
    words: (screen) => `${screen} has more than one latest entry: it was recorded in two places apart.`,
    remedy: "Compare them and record the one that holds; the new entry follows both.",
  },
} as const satisfies Readonly<Record<string, FindingWords>>;

/** Enough of an id or a fingerprint to name it to a person; `numbers` has all of it. */
function short(digits: FindingNumbers[string] | undefined): string {
  return String(digits ?? "").slice(0, 12);
}

/** Codes of what a logbook's reading and verifying can find. */
export type LogbookFindingCode = keyof typeof WORDS;

/**
 * @param subject the file, record or screen that the words are about
 * @param place in words where it is, when the subject does not say so itself
 */
export function logbookFinding(
  code: LogbookFindingCode,
  subject: string,
  { place = subject, numbers = {} }: { readonly place?: string; readonly numbers?: FindingNumbers } = {},
): Finding {
  const { severity, words, remedy } = WORDS[code];
  return {
    code,
    kind: "record",
    severity,
    place: { pointer: "", words: place },
    words: words(subject, numbers),
    numbers: { subject, ...numbers },
    remedy,
  };
}
