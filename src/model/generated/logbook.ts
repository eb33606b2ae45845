// Made by `npm run generate` from schemas/. Do not edit.

/**
 * SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
 * 
 * This interface was referenced by `LogbookHeader`'s JSON-Schema
 * via the `definition` "Sha256".
 */
export type Sha256 = string

/**
 * The file logbook.json of a logbook folder. Its $defs describe the other records; logbook-format.md says where each is kept.
 */
export interface LogbookHeader {
/**
 * Kind of document.
 */
readonly kind: "boothkeep.logbook"
/**
 * Version of the logbook's format. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * Tells logbooks apart in reports; carries no other meaning.
 */
readonly id: string
/**
 * RFC 3339 with offset.
 */
readonly startedAt: string
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * Says that an entry is not to be used any more. The entry stays.
 * 
 * This interface was referenced by `LogbookHeader`'s JSON-Schema
 * via the `definition` "Withdrawal".
 */
export interface Withdrawal {
readonly kind: "boothkeep.withdrawal"
readonly schemaVersion: string
readonly siteId: string
readonly screenId: string
/**
 * Id of the entry.
 */
readonly entry: string
readonly reason: string
/**
 * RFC 3339 with offset.
 */
readonly recordedAt: string
readonly recordedBy: string
}
/**
 * An Ed25519 signature (RFC 8032) over the RFC 8785 bytes of an entry or a withdrawal.
 * 
 * This interface was referenced by `LogbookHeader`'s JSON-Schema
 * via the `definition` "EntrySignature".
 */
export interface EntrySignature {
readonly kind: "boothkeep.signature"
readonly schemaVersion: string
readonly siteId: string
readonly screenId: string
/**
 * Id of what is signed.
 */
readonly record: string
readonly algorithm: "Ed25519"
/**
 * 32 bytes in Base64 (RFC 4648 section 4).
 */
readonly publicKey: string
/**
 * 64 bytes in Base64 (RFC 4648 section 4).
 */
readonly value: string
}
/**
 * A configuration kept whole.
 * 
 * This interface was referenced by `LogbookHeader`'s JSON-Schema
 * via the `definition` "WholeConfiguration".
 */
export interface WholeConfiguration {
readonly kind: "boothkeep.whole"
/**
 * The configuration as it is.
 */
readonly configuration: {

}
}
/**
 * A configuration kept as edits to the pieces of another one's canonical text; see logbook-format.md.
 * 
 * This interface was referenced by `LogbookHeader`'s JSON-Schema
 * via the `definition` "EditedConfiguration".
 */
export interface EditedConfiguration {
readonly kind: "boothkeep.edited"
readonly sha256: Sha256
/**
 * First 16 digits of the SHA-256 of the configuration that the edits start from.
 */
readonly base: string
/**
 * How many pieces of the base each edit keeps before it changes anything.
 */
readonly keep: readonly number[]
/**
 * How many pieces of the base each edit then drops; left out when each drops one.
 */
readonly drop?: readonly number[]
/**
 * What each edit adds, one line for each.
 */
readonly add: string
}
