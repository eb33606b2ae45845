// Made by `npm run generate` from schemas/. Do not edit.
import type { ValidateFunction } from "ajv";
export const validateAudit: ValidateFunction;
export const validateComparison: ValidateFunction;
export const validateConfiguration: ValidateFunction;
export const validateConfirmation: ValidateFunction;
export const validateDecisionClasses: ValidateFunction;
export const validateDecisions: ValidateFunction;
export const validateEntry: ValidateFunction;
export const validateFieldMap: ValidateFunction;
export const validateLogbookHeader: ValidateFunction;
export const validateLoudspeakerData: ValidateFunction;
export const validatePackManifest: ValidateFunction;
export const validatePlanDocument: ValidateFunction;
export const validateProof: ValidateFunction;
export const validateProposal: ValidateFunction;
export const validateRuleSettings: ValidateFunction;
export const validateScreenDescription: ValidateFunction;
export const validateSignaturePolicy: ValidateFunction;
export const validateStandardDecisions: ValidateFunction;
export const validateStandard: ValidateFunction;
export const validateUnitProfile: ValidateFunction;

/** Every kind of document that has a schema. */
export interface DocumentSchema {
  readonly kind: string;
  readonly version: string;
  /** The property names of every object in it. */
  readonly names: readonly (readonly string[])[];
  /** The values of "kind" that tell the members of a union apart. */
  readonly tags: readonly string[];
  readonly validate: ValidateFunction;
}
export const documentSchemas: readonly DocumentSchema[];
