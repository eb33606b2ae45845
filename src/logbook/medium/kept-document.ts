/** A JSON document as the logbook keeps it: any schema version, untouched. */
export type KeptDocument = Readonly<Record<string, unknown>>;
