// Made by `npm run generate` from schemas/. Do not edit.

/**
 * SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
 * 
 * This interface was referenced by `PackManifest`'s JSON-Schema
 * via the `definition` "Sha256".
 */
export type Sha256 = string

/**
 * The file manifest.json of a handover pack: what the pack is about and every file in it, with size and SHA-256. Only manifest.json itself and signature.json are not listed.
 */
export interface PackManifest {
/**
 * Kind of document.
 */
readonly kind: "boothkeep.pack"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * RFC 3339 with offset.
 */
readonly createdAt: string
/**
 * Who: a person, a team or a role.
 */
readonly createdBy: string
/**
 * Stable key of the site.
 */
readonly siteId: string
/**
 * Stable key of the screen inside the site.
 */
readonly screenId: string
/**
 * The unit that the configuration is for.
 */
readonly unit: {
/**
 * Unit profile of this model.
 */
readonly profileId: string
/**
 * Serial number as on the unit.
 */
readonly serial: string
}
/**
 * SHA-256 of the RFC 8785 canonical text of the configuration.
 */
readonly configuration: string
/**
 * Id of the logbook entry that the configuration was recorded in.
 */
readonly entry?: string
/**
 * Every file of the pack but manifest.json and signature.json, sorted by name.
 * 
 * @minItems 1
 * @maxItems 62
 */
readonly files: readonly PackedFile[]
}
/**
 * A file of the pack.
 * 
 * This interface was referenced by `PackManifest`'s JSON-Schema
 * via the `definition` "PackedFile".
 */
export interface PackedFile {
/**
 * Name inside the pack.
 */
readonly name: string
/**
 * What the file is.
 */
readonly role: ("configuration" | "unit-profile" | "entry" | "entry-signature" | "previous-entry" | "previous-configuration" | "sheet-text" | "sheet-html" | "cautions" | "attachment")
/**
 * An attachment's own name; never used as a path.
 */
readonly label?: string
/**
 * Size in bytes.
 */
readonly sizeBytes: number
readonly sha256: Sha256
}
