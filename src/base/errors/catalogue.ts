/**
 * Every error code that boothkeep throws, with the class of exit code it leads to. Codes are stable: scripts
 * match on them. Findings (what a check reports) are not errors and have codes of their own.
 *
 * Exit classes: `usage` (2) wrong use or unreadable input; `damaged` (3) damaged or unverified data; `defect` (70) an
 * error that nobody foresaw; `output` (74) the result could not be given out. A missing decision (exit code 4) is no
 * error: the plan says what it waits for.
 */
export const ERROR_CATALOGUE = {
  "usage.wrong": { exit: "usage", summary: "The command line or the arguments are wrong." },
  "defect.unforeseen": { exit: "defect", summary: "A defect of boothkeep itself: nobody foresaw this." },
  "output.closed": { exit: "output", summary: "Whoever reads the output closed it, or it is full." },
  "input.not-found": { exit: "usage", summary: "The file or folder does not exist." },
  "input.is-folder": { exit: "usage", summary: "A file was expected, this is a folder." },
  "input.too-large": { exit: "usage", summary: "The file is larger than any document of its kind can be." },
  "input.no-permission": { exit: "usage", summary: "The file or folder may not be read or written." },
  "input.unreadable": { exit: "usage", summary: "The file could not be read." },
  "input.not-json": { exit: "usage", summary: "The text is not JSON." },
  "input.not-utf8": { exit: "usage", summary: "The bytes are not text in UTF-8." },
  "input.too-deep": {
    exit: "usage",
    summary: "The document is nested deeper than any document of its kind.",
  },
  "input.number-range": { exit: "usage", summary: "A number is outside what a double can hold." },
  "input.duplicate-name": { exit: "usage", summary: "An object has the same name twice." },
  "document.wrong-kind": { exit: "usage", summary: "The document is of another kind than expected." },
  "document.newer-version": { exit: "usage", summary: "The document was written by a newer version." },
  "document.unknown-version": {
    exit: "usage",
    summary: "The document names no schema version that is known.",
  },
  "document.not-upgradable": {
    exit: "usage",
    summary: "An older document says what the present version cannot say.",
  },
  "document.invalid": { exit: "usage", summary: "The document does not fit its schema." },
  "document.secret": { exit: "usage", summary: "The document carries something that looks like a secret." },
  "profile.unknown": { exit: "usage", summary: "No unit profile with this id is at hand." },
  "output.exists": { exit: "usage", summary: "The file to write exists; nothing is ever written over." },
  "output.no-space": { exit: "usage", summary: "The disk is full." },
  "output.failed": { exit: "usage", summary: "Writing failed." },
  "output.read-only": { exit: "usage", summary: "The medium cannot be written." },
  "pack.not-a-zip": { exit: "damaged", summary: "The file is no handover pack." },
  "pack.too-large": {
    exit: "damaged",
    summary: "A pack, or a file in it, is larger than any can be, or would swell.",
  },
  "pack.truncated": { exit: "damaged", summary: "The end of a pack is missing." },
  "pack.trailing-bytes": { exit: "damaged", summary: "Something follows after the end of a pack." },
  "pack.unsafe-name": { exit: "damaged", summary: "A file in a pack has a name that could do harm." },
  "pack.duplicate-name": { exit: "damaged", summary: "A pack holds two files of one name." },
  "pack.encrypted": { exit: "damaged", summary: "A file in a pack is encrypted." },
  "pack.odd-method": { exit: "damaged", summary: "A file in a pack is packed by a method that is not read." },
  "pack.odd-feature": { exit: "damaged", summary: "A pack uses a feature of zip that no pack needs." },
  "pack.not-a-file": { exit: "damaged", summary: "A pack holds a link, a folder or a device." },
  "pack.wrong-size": { exit: "damaged", summary: "A file in a pack has another size than it claims." },
  "pack.inconsistent": { exit: "damaged", summary: "Parts of a pack contradict each other." },
  "pack.overlap": { exit: "damaged", summary: "Files of a pack overlap, or bytes belong to none." },
  "pack.damaged-file": { exit: "damaged", summary: "A file in a pack is damaged." },
  "pack.nested-archive": { exit: "damaged", summary: "A pack holds an archive." },
  "pack.no-manifest": { exit: "damaged", summary: "A pack has no manifest, or one that cannot be read." },
  "pack.missing-file": { exit: "damaged", summary: "A pack lacks a file that its manifest lists." },
  "pack.extra-file": { exit: "damaged", summary: "A pack holds a file that its manifest does not list." },
  "pack.broken-signature": {
    exit: "damaged",
    summary: "The signature of a pack does not match it.",
  },
  "pack.unfit-document": { exit: "damaged", summary: "A document in a pack does not fit its schema." },
  "pack.wrong-hash": {
    exit: "damaged",
    summary: "A file in a pack is not the one that the manifest vouches for.",
  },
  "logbook.not-found": { exit: "usage", summary: "The folder holds no logbook." },
  "logbook.damaged-header": { exit: "damaged", summary: "The logbook's header file is damaged." },
  "logbook.damaged-records": { exit: "damaged", summary: "Records of the logbook are missing or damaged." },
  "logbook.no-entry": { exit: "usage", summary: "No entry of the logbook answers to what was asked." },
  "logbook.ambiguous-entry": { exit: "usage", summary: "More than one entry answers to what was asked." },
  "logbook.lost-configuration": {
    exit: "damaged",
    summary: "A configuration cannot be put together: something it rests on is missing or damaged.",
  },
  "logbook.broken-signature": { exit: "damaged", summary: "A signature of an entry does not hold." },
  "logbook.unsigned": { exit: "damaged", summary: "The policy asks for a signature that an entry lacks." },
  "logbook.unknown-policy": {
    exit: "damaged",
    summary: "The signature policy in force is missing or damaged.",
  },
  "logbook.other-screen": {
    exit: "damaged",
    summary: "An entry names a configuration of another screen or unit.",
  },
  "logbook.not-canonical": { exit: "damaged", summary: "A configuration is not in the form of RFC 8785." },
  "logbook.number-beyond": {
    exit: "damaged",
    summary: "The number of an entry follows from no entry before it.",
  },
  "logbook.read-back-differs": {
    exit: "damaged",
    summary: "The last read-back of a unit differs from what was to be loaded.",
  },
  "imprint.unreadable": { exit: "usage", summary: "A text is not what a code on a paper of ours holds." },
  "logbook.lost-attachment": { exit: "damaged", summary: "An attachment is missing or damaged." },
  "restore.newer-unseen": {
    exit: "damaged",
    summary: "A newer entry of the screen is missing or cannot be read.",
  },
  "restore.no-entry": { exit: "damaged", summary: "No as-left entry of the screen can be trusted." },
  "signing.bad-key": {
    exit: "usage",
    summary: "A key is no Ed25519 key in PEM, or its passphrase is wrong.",
  },
  "acoustics.unknown-id": {
    exit: "usage",
    summary: "Responses cannot be computed: an id in the configuration names nothing.",
  },
  "acoustics.invalid-grid": {
    exit: "usage",
    summary: "Responses cannot be computed at these frequencies.",
  },
  "acoustics.invalid-filter": {
    exit: "usage",
    summary: "A setting of a filter, level or delay is outside what can be computed.",
  },
  "decisions.unknown-question": {
    exit: "usage",
    summary: "An answer names a question that the plan does not ask.",
  },
  "decisions.unknown-option": {
    exit: "usage",
    summary: "An answer names an option that the question does not have.",
  },
  "decisions.unfit-answer": {
    exit: "usage",
    summary: "An answer lacks its text or ids, or names what is not there.",
  },
  "decisions.unfit-connector": {
    exit: "usage",
    summary: "A wish names a connector that is not there or does not fit.",
  },
  "decisions.not-accepted": {
    exit: "usage",
    summary: "An answer weakens protection without accepting it in words.",
  },
  "decisions.answered-twice": { exit: "usage", summary: "A decisions file answers a question twice." },
  "decisions.other-units": { exit: "usage", summary: "A decisions file was made for other units." },
  "migrate.other-profile": { exit: "usage", summary: "The configuration was made for another unit profile." },
  "export.wrong-encoding": { exit: "usage", summary: "The export is not text in the encoding of its map." },
  "export.not-readable": { exit: "usage", summary: "The export is not of the kind that its map describes." },
  "export.does-not-fit": { exit: "usage", summary: "Values of the export do not fit the field map." },
  "export.cannot-hold": {
    exit: "usage",
    summary: "The export has no room for parts of the configuration, or would round them.",
  },
  "table.wrong-encoding": { exit: "usage", summary: "A table is not text in the encoding that was named." },
  "table.not-readable": { exit: "usage", summary: "A file is no table of cells, or no workbook." },
  "table.unsafe": {
    exit: "usage",
    summary: "A workbook holds what no table needs: macros, links, entities, or far too much.",
  },
  "table.does-not-fit": {
    exit: "usage",
    summary: "A table does not fit the configuration that it is taken into.",
  },
  "field-map.unusable": {
    exit: "usage",
    summary: "A field map names what is not there or contradicts itself.",
  },
  "commission.unknown-model": { exit: "usage", summary: "The loudspeaker data lacks a model." },
  "commission.other-drive": {
    exit: "usage",
    summary: "Loudspeakers are wired otherwise than their data is made for.",
  },
  "commission.no-crossover": {
    exit: "usage",
    summary: "The unit can run no crossover that the loudspeaker's data recommends.",
  },
  "commission.does-not-fit": { exit: "usage", summary: "The room does not fit the unit or its formats." },
  "commission.against-rules": {
    exit: "usage",
    summary: "What a description asks for breaks a rule of the rule book.",
  },
  "standard.unknown-place": { exit: "usage", summary: "A standard names a place that no configuration has." },
  "standard.bad-line": { exit: "usage", summary: "A line of a standard contradicts itself." },
  "standard.other-standard": { exit: "usage", summary: "A document belongs to another standard or version." },
  "standard.wrong-screen": { exit: "usage", summary: "A standard is not for this screen." },
  "changes.unclear-identity": {
    exit: "usage",
    summary: "Items of a list cannot be told apart, so two documents cannot be compared.",
  },
  "changes.do-not-fit": {
    exit: "usage",
    summary: "Changes are applied to a document that they were not found in.",
  },
} as const satisfies Record<string, { readonly exit: ExitClass; readonly summary: string }>;

/** What a thrown error means for the caller's exit code. */
export type ExitClass = "usage" | "damaged" | "defect" | "output";

/** A stable error code; see {@link ERROR_CATALOGUE}. */
export type ErrorCode = keyof typeof ERROR_CATALOGUE;

/**
 * Process exit codes. 0 and 1 are results, not errors. The two high ones are those of sysexits.h (BSD): EX_SOFTWARE and
 * EX_IOERR.
 */
export const EXIT_CODE = {
  done: 0,
  found: 1,
  usage: 2,
  damaged: 3,
  decision: 4,
  defect: 70,
  output: 74,
} as const;
