// Made by `npm run generate` from schemas/. Do not edit.

/**
 * Which keys a logbook trusts and what needs a signature. The one with the highest number is in force.
 */
export interface SignaturePolicy {
/**
 * Kind of document.
 */
readonly kind: "boothkeep.signature-policy"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * One more than the policy before.
 */
readonly number: number
/**
 * RFC 3339 with offset.
 */
readonly recordedAt: string
/**
 * Who: a person, a team or a role.
 */
readonly recordedBy: string
/**
 * Whether a configuration may go to a unit only if a trusted key signed its entry.
 */
readonly restoreNeedsSignature: boolean
/**
 * Keys whose signatures are believed.
 * 
 * @maxItems 256
 */
readonly trustedKeys: readonly TrustedKey[]
}
/**
 * A key with its owner's name.
 * 
 * This interface was referenced by `SignaturePolicy`'s JSON-Schema
 * via the `definition` "TrustedKey".
 */
export interface TrustedKey {
/**
 * Whose key it is: a team or a role.
 */
readonly name: string
/**
 * Ed25519 public key, 32 bytes in Base64 (RFC 4648 section 4).
 */
readonly publicKey: string
readonly retired?: RetiredKey
}
/**
 * The key is not used any more; what it signed before may still be trusted.
 * 
 * This interface was referenced by `SignaturePolicy`'s JSON-Schema
 * via the `definition` "RetiredKey".
 */
export interface RetiredKey {
/**
 * RFC 3339 with offset. What was recorded from then on is not trusted.
 */
readonly from: string
/**
 * True: somebody else had the key, so that nothing it signed is trusted, whatever its date.
 */
readonly stolen?: boolean
}
