// Made by `npm run generate` from schemas/. Do not edit.
import type { ValidateFunction } from "ajv";
export const validateConfiguration: ValidateFunction;
export const validateUnitProfile: ValidateFunction;
